"""What happened in the demonstration since its members were here last."""

from catalog.exchange.demonstration.ledger import Ledger, read
from catalog.models import Want
from catalog.operations.answers import receive_answer
from catalog.operations.fittings import fit_part
from catalog.operations.moves import move_parts
from catalog.operations.visits import end_visit, note_visit


def record_visits(ledger: Ledger) -> None:
    """Let every member have seen the shop as it is now, so that what follows is news to them."""
    for member in ledger.members.values():
        if member.is_volunteer:
            note_visit(member)
            end_visit(member)


def record_lately(ledger: Ledger) -> None:
    """Bring a brass and a latch to their shelf, fit two brake blocks, and let an answer come in."""
    brought = [line for line in read("parts")["part"] if "came_to" in line]
    for line in brought:
        place = ledger.locations[line["location"]]
        move_parts([ledger.parts[line["key"]]], location=place, by=ledger.volunteer)
    for part, vehicle, position in ledger.later:
        fit_part(part, vehicle, position, by=ledger.curator)
    for line in read("wants")["answer"]:
        vehicle = ledger.vehicles[line["vehicle"]]
        want = Want.objects.get(vehicle=vehicle, component=ledger.components[line["component"]])
        told = {name: line[name] for name in ("name", "contact", "words")}
        receive_answer(want, {**told, "has_consent": True})
