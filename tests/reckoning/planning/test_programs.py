"""Test the way to the solver and back."""

import subprocess
import sys

import numpy as np

from catalog.reckoning.planning.programs import Program


def flow_program():
    """Return one whole capacity that two flows share, and their columns."""
    program = Program()
    capacity = program.column(3, is_whole=True)
    flows = [program.column(2), program.column(2)]
    program.row({capacity: -1.0, flows[0]: 1.0, flows[1]: 1.0}, upper=0)
    return program, capacity, flows


def test_maximize_finds_the_largest_sum_and_proves_it():
    program, capacity, flows = flow_program()

    solution = program.maximize({flows[0]: 2.0, flows[1]: 1.0, capacity: -1.5}, seconds=5)

    assert (solution.value, solution.bound, solution.is_proven) == (1.0, 1.0, True)
    assert solution.values.tolist() == [2.0, 2.0, 0.0]


def test_maximize_without_whole_columns_proves_its_value_too():
    program = Program()
    column = program.column(2.5)

    solution = program.maximize({column: 2.0}, seconds=5)

    assert (solution.value, solution.bound, solution.is_proven) == (5.0, 5.0, True)


def test_maximize_in_no_time_finds_nothing():
    program, capacity, _ = flow_program()

    solution = program.maximize({capacity: 1.0}, seconds=0)

    assert (solution.values, solution.bound, solution.is_proven) == (None, np.inf, False)


def test_maximize_of_what_cannot_be_finds_nothing():
    program, capacity, _ = flow_program()
    program.row({capacity: 1.0}, lower=4)

    assert program.maximize({capacity: 1.0}, seconds=5).values is None


def test_at_vertex_makes_shared_flows_whole_and_keeps_whole_columns():
    program, _, flows = flow_program()
    terms = dict.fromkeys(flows, 1.0)

    values = program.at_vertex(terms, np.array([3.0, 1.5, 1.5]))

    assert values[0] == 3.0
    assert sorted(values[flows].tolist()) == [1.0, 2.0]


def test_at_vertex_leaves_the_program_as_it_was():
    program, capacity, flows = flow_program()
    program.at_vertex(dict.fromkeys(flows, 1.0), np.array([1.0, 0.5, 0.5]))

    solution = program.maximize({capacity: 1.0}, seconds=5)

    assert solution.value == 3.0


def test_the_solver_prints_nothing():
    asked = (
        "from catalog.reckoning.planning.programs import Program;"
        "program = Program(); x = program.column(3, is_whole=True);"
        "program.maximize({x: 1.0}, seconds=5)"
    )

    # Whatever it prints comes once a process, so this takes one of its own.
    told = subprocess.run(  # noqa: S603
        [sys.executable, "-c", asked], capture_output=True, check=True
    )

    assert (told.stdout, told.stderr) == (b"", b"")
