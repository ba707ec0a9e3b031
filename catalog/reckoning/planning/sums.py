"""Write the sums that the levels of a plan make as large, or as small, as they can be."""

from collections.abc import Iterator, Mapping

from catalog.reckoning.planning.facts import Shop
from catalog.reckoning.planning.lots import Lot
from catalog.reckoning.planning.models import Bin, Group, Model
from catalog.reckoning.planning.sizes import read_sizes

Terms = dict[int, float]


def complete_terms(model: Model, factors: Mapping[int, int]) -> Terms:
    """Count vehicles made complete by weight, those of each rank times its factor.

    >>> complete_terms(_empty(), {0: 1})
    {}
    """
    return {
        group.complete: float(factors[group.rank] * group.weight)
        for group in model.groups
        if group.rank in factors and not group.frame.is_full
    }


def filled_terms(model: Model) -> Terms:
    """Count the essential places that are filled.

    >>> filled_terms(_empty())
    {}
    """
    return {column: 1.0 for b in model.bins() if b.role[1] for column in b.columns}


def sound_terms(model: Model, stay: float = 0.0) -> Terms:
    """Count thousandths of sound fits, and add ``stay`` for each piece back where it was.

    >>> sound_terms(_empty())
    {}
    """
    terms = {
        column: float(model.lots[number].hubs[hub]) for (number, hub), column in model.flows.items()
    }
    for group, bin_, lot, column in _past_hubs(model):
        is_back = lot.came_off == group.frame.vehicle
        terms[column] = lot.hubs[bin_.role[0], bin_.role[2]] + stay * is_back
    return terms


def stay_terms(model: Model) -> Terms:
    """Count the pieces that go back to the vehicle they came off.

    >>> stay_terms(_empty())
    {}
    """
    return {
        column: 1.0
        for group, _, lot, column in _past_hubs(model)
        if lot.came_off == group.frame.vehicle
    }


def cost_terms(model: Model) -> Terms:
    """Count, negated, the cost of making the pieces ready.

    >>> cost_terms(_empty())
    {}
    """
    costs = {column: -float(model.lots[number].cost) for (number, _), column in model.flows.items()}
    costs |= {column: -float(lot.cost) for _, _, lot, column in _past_hubs(model)}
    return {column: cost for column, cost in costs.items() if cost}


def _past_hubs(model: Model) -> Iterator[tuple[Group, Bin, Lot, int]]:
    for group in model.groups:
        for bins in group.bins.values():
            for bin_ in bins.values():
                for number, column in bin_.from_lots.items():
                    yield group, bin_, model.lots[number], column


def _empty() -> Model:
    """Return a model of nothing, for the examples."""
    shop = Shop((), (), ())
    return Model(shop, read_sizes(shop), (), ())
