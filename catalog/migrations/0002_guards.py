"""Let the database refuse what no constraint can say: lots overused, things inside themselves."""

from django.db import migrations

ACTIVE = "('reserved', 'trial', 'fitted')"

SQLITE = [
    f"""
    CREATE TRIGGER fitting_within_lot_insert BEFORE INSERT ON catalog_fitting
    WHEN NEW.state IN {ACTIVE} AND
      (SELECT COUNT(*) FROM catalog_fitting WHERE part_id = NEW.part_id AND state IN {ACTIVE})
      >= (SELECT quantity FROM catalog_part WHERE id = NEW.part_id)
    BEGIN SELECT RAISE(ABORT, 'fitting_within_lot'); END
    """,
    f"""
    CREATE TRIGGER fitting_within_lot_update BEFORE UPDATE ON catalog_fitting
    WHEN NEW.state IN {ACTIVE} AND
      (SELECT COUNT(*) FROM catalog_fitting
       WHERE part_id = NEW.part_id AND state IN {ACTIVE} AND id <> NEW.id)
      >= (SELECT quantity FROM catalog_part WHERE id = NEW.part_id)
    BEGIN SELECT RAISE(ABORT, 'fitting_within_lot'); END
    """,
    f"""
    CREATE TRIGGER lot_covers_fittings BEFORE UPDATE OF quantity ON catalog_part
    WHEN NEW.quantity <
      (SELECT COUNT(*) FROM catalog_fitting WHERE part_id = NEW.id AND state IN {ACTIVE})
    BEGIN SELECT RAISE(ABORT, 'lot_covers_fittings'); END
    """,
    """
    CREATE TRIGGER location_tree_without_loop BEFORE UPDATE OF parent_id ON catalog_location
    WHEN EXISTS (SELECT 1 FROM catalog_location
                 WHERE id = NEW.parent_id AND lineage LIKE '%/' || NEW.id || '/%')
    BEGIN SELECT RAISE(ABORT, 'location_tree_without_loop'); END
    """,
]
# SQLite allows no recursive query in a trigger; parts nest three deep at most, which is
# checked link by link.
SQLITE += [
    f"""
    CREATE TRIGGER part_nest_without_loop_{when} BEFORE {event} ON catalog_part
    WHEN NEW.inside_id IS NOT NULL AND EXISTS (
      SELECT 1 FROM catalog_part a
      LEFT JOIN catalog_part b ON b.id = a.inside_id
      LEFT JOIN catalog_part c ON c.id = b.inside_id
      WHERE a.id = NEW.inside_id AND
        (a.id = NEW.id OR b.id = NEW.id OR c.id = NEW.id OR c.inside_id IS NOT NULL))
    BEGIN SELECT RAISE(ABORT, 'part_nest_without_loop'); END
    """
    for when, event in (("insert", "INSERT"), ("update", "UPDATE OF inside_id"))
]

POSTGRESQL = [
    f"""
    CREATE FUNCTION fitting_within_lot() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF NEW.state IN {ACTIVE} THEN
        PERFORM 1 FROM catalog_part WHERE id = NEW.part_id FOR UPDATE;
        IF (SELECT COUNT(*) FROM catalog_fitting
            WHERE part_id = NEW.part_id AND state IN {ACTIVE} AND id IS DISTINCT FROM NEW.id)
           >= (SELECT quantity FROM catalog_part WHERE id = NEW.part_id) THEN
          RAISE integrity_constraint_violation USING MESSAGE = 'fitting_within_lot';
        END IF;
      END IF;
      RETURN NEW;
    END $$
    """,
    """
    CREATE TRIGGER fitting_within_lot BEFORE INSERT OR UPDATE ON catalog_fitting
    FOR EACH ROW EXECUTE FUNCTION fitting_within_lot()
    """,
    f"""
    CREATE FUNCTION lot_covers_fittings() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF NEW.quantity < (SELECT COUNT(*) FROM catalog_fitting
                         WHERE part_id = NEW.id AND state IN {ACTIVE}) THEN
        RAISE integrity_constraint_violation USING MESSAGE = 'lot_covers_fittings';
      END IF;
      RETURN NEW;
    END $$
    """,
    """
    CREATE TRIGGER lot_covers_fittings BEFORE UPDATE OF quantity ON catalog_part
    FOR EACH ROW EXECUTE FUNCTION lot_covers_fittings()
    """,
    """
    CREATE FUNCTION location_tree_without_loop() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF EXISTS (SELECT 1 FROM catalog_location
                 WHERE id = NEW.parent_id AND lineage LIKE '%/' || NEW.id || '/%') THEN
        RAISE integrity_constraint_violation USING MESSAGE = 'location_tree_without_loop';
      END IF;
      RETURN NEW;
    END $$
    """,
    """
    CREATE TRIGGER location_tree_without_loop BEFORE UPDATE OF parent_id ON catalog_location
    FOR EACH ROW EXECUTE FUNCTION location_tree_without_loop()
    """,
    """
    CREATE FUNCTION part_nest_without_loop() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF NEW.inside_id IS NOT NULL AND EXISTS (
        SELECT 1 FROM catalog_part a
        LEFT JOIN catalog_part b ON b.id = a.inside_id
        LEFT JOIN catalog_part c ON c.id = b.inside_id
        WHERE a.id = NEW.inside_id AND
          (a.id = NEW.id OR b.id = NEW.id OR c.id = NEW.id OR c.inside_id IS NOT NULL)) THEN
        RAISE integrity_constraint_violation USING MESSAGE = 'part_nest_without_loop';
      END IF;
      RETURN NEW;
    END $$
    """,
    """
    CREATE TRIGGER part_nest_without_loop BEFORE INSERT OR UPDATE OF inside_id ON catalog_part
    FOR EACH ROW EXECUTE FUNCTION part_nest_without_loop()
    """,
]

SEARCH_SQLITE = [
    """
    CREATE VIRTUAL TABLE catalog_search_words USING fts5(
      title, words, content='catalog_searchentry', content_rowid='id',
      tokenize="unicode61 remove_diacritics 2 tokenchars '.'", prefix='2 3')
    """,
    """
    CREATE TRIGGER search_words_insert AFTER INSERT ON catalog_searchentry BEGIN
      INSERT INTO catalog_search_words(rowid, title, words) VALUES (NEW.id, NEW.title, NEW.words);
    END
    """,
    """
    CREATE TRIGGER search_words_delete AFTER DELETE ON catalog_searchentry BEGIN
      INSERT INTO catalog_search_words(catalog_search_words, rowid, title, words)
      VALUES ('delete', OLD.id, OLD.title, OLD.words);
    END
    """,
    """
    CREATE TRIGGER search_words_update AFTER UPDATE ON catalog_searchentry BEGIN
      INSERT INTO catalog_search_words(catalog_search_words, rowid, title, words)
      VALUES ('delete', OLD.id, OLD.title, OLD.words);
      INSERT INTO catalog_search_words(rowid, title, words) VALUES (NEW.id, NEW.title, NEW.words);
    END
    """,
]
SEARCH_POSTGRESQL = [
    """
    CREATE INDEX catalog_search_words ON catalog_searchentry
    USING gin (to_tsvector('simple', title || ' ' || words))
    """
]


def guard(apps, schema_editor):
    statements = {
        "sqlite": SQLITE + SEARCH_SQLITE,
        "postgresql": POSTGRESQL + SEARCH_POSTGRESQL,
    }[schema_editor.connection.vendor]
    with schema_editor.connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


class Migration(migrations.Migration):
    dependencies = [("catalog", "0001_initial")]

    operations = [migrations.RunPython(guard, migrations.RunPython.noop)]
