"""Put an integer program to the HiGHS solver and bring back value, bound, and proof."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import floor

import highspy
import numpy as np
from numpy.typing import NDArray

# Terms of a sum: the coefficient of each column.
Terms = Mapping[int, float]

# How far from a whole number a value may be and still stand for it.
WHOLE = 1e-6


def whole_part(value: float) -> int:
    """Return the whole number that a value or bound amounts to, rounding down.

    >>> whole_part(2.9999999), whole_part(2.7)
    (3, 2)
    """
    return floor(value + WHOLE)


@dataclass(frozen=True, slots=True)
class Solution:
    """Hold the best values found, or none, and how good any values could be.

    >>> Solution(None, 0.0, 3.0, False).is_proven
    False
    """

    values: NDArray[np.float64] | None
    value: float
    bound: float
    is_proven: bool


class Program:
    """Hold the columns and rows of a program that is to be solved for one sum after another.

    The solver runs on one thread from a fixed seed, so that the same program always gives the
    same answer unless the time limit cuts it short.

    >>> program = Program()
    >>> x = program.column(4, is_whole=True)
    >>> row = program.row({x: 2.0}, upper=7)
    >>> program.maximize({x: 1.0}, seconds=5).value
    3.0
    """

    def __init__(self) -> None:
        self._uppers: list[float] = []
        self._whole: list[int] = []
        self._lower_rows: list[float] = []
        self._upper_rows: list[float] = []
        self._starts: list[int] = [0]
        self._indices: list[int] = []
        self._coefficients: list[float] = []
        self._solver: highspy.Highs | None = None

    @property
    def width(self) -> int:
        """Return the number of columns."""
        return len(self._uppers)

    @property
    def height(self) -> int:
        """Return the number of rows."""
        return len(self._lower_rows)

    def column(self, upper: float = highspy.kHighsInf, *, is_whole: bool = False) -> int:
        """Add a column from 0 to ``upper`` and return its number."""
        if is_whole:
            self._whole.append(len(self._uppers))
        self._uppers.append(upper)
        return len(self._uppers) - 1

    def upper(self, column: int) -> float:
        """Return the upper limit of a column."""
        return self._uppers[column]

    def row(
        self, terms: Terms, lower: float = -highspy.kHighsInf, upper: float = highspy.kHighsInf
    ) -> int:
        """Add a row that keeps a sum between limits and return its number."""
        self._lower_rows.append(lower)
        self._upper_rows.append(upper)
        self._indices += terms.keys()
        self._coefficients += terms.values()
        self._starts.append(len(self._indices))
        if self._solver is not None:
            columns, values = list(terms), list(terms.values())
            self._solver.addRow(lower, upper, len(columns), columns, values)
        return len(self._lower_rows) - 1

    def limit_row(self, row: int, lower: float, upper: float) -> None:
        """Change the limits of a row."""
        self._lower_rows[row], self._upper_rows[row] = lower, upper
        if self._solver is not None:
            self._solver.changeRowBounds(row, lower, upper)

    def maximize(self, terms: Terms, *, seconds: float, step: float = 1.0) -> Solution:
        """Return the best values for a sum that are found within the time limit.

        Sums that whole values can reach lie at least a ``step`` apart, so that a bound less than
        a step away proves a value; the solver cannot know that of flows.
        """
        if seconds <= 0:
            return Solution(None, 0.0, highspy.kHighsInf, is_proven=False)
        solver = self._ready_solver()
        costs = np.zeros(self.width)
        costs[list(terms)] = list(terms.values())
        solver.changeColsCost(self.width, np.arange(self.width, dtype=np.int32), costs)
        # No plan known before is handed over as a start: HiGHS 1.16 was seen to value one wrongly
        # after presolve, and to call it optimal.
        solver.clearSolver()
        solver.setOptionValue("mip_abs_gap", 0.999 * step)
        solver.setOptionValue("time_limit", seconds)
        solver.run()
        return _read(solver, has_bound=bool(self._whole))

    def at_vertex(self, terms: Terms, values: NDArray[np.float64]) -> NDArray[np.float64] | None:
        """Return values that are all whole, those of the whole columns as they were.

        What flows through a network of whole capacities is whole at every vertex (Dantzig; Ahuja,
        Magnanti and Orlin, *Network Flows*, integrality theorem, from memory), so that rounding
        is never needed. Nothing comes back should the solver find no vertex within a minute.
        """
        if np.abs(values - np.round(values)).max(initial=0) < WHOLE:
            return values
        solver = self._ready_solver()
        kept = np.array(self._whole, dtype=np.int32)
        fixed = np.round(values[kept])
        solver.changeColsBounds(len(kept), kept, fixed, fixed)
        self._set_kind(kept, highspy.HighsVarType.kContinuous)
        vertex = self.maximize(terms, seconds=60.0).values
        uppers = np.array([self._uppers[column] for column in kept])
        solver.changeColsBounds(len(kept), kept, np.zeros(len(kept)), uppers)
        self._set_kind(kept, highspy.HighsVarType.kInteger)
        return vertex

    def make_whole(self, columns: Iterable[int]) -> None:
        """Let these columns take only whole values from now on."""
        self._whole = sorted({*self._whole, *columns})
        self._set_kind(np.array(self._whole, dtype=np.int32), highspy.HighsVarType.kInteger)

    def _set_kind(self, columns: NDArray[np.int32], kind: highspy.HighsVarType) -> None:
        kinds = np.full(len(columns), int(kind), dtype=np.uint8)
        self._ready_solver().changeColsIntegrality(len(columns), columns, kinds)

    def _ready_solver(self) -> highspy.Highs:
        if self._solver is None:
            self._solver = _new_solver()
            self._solver.passModel(self._as_highs())
        return self._solver

    def _as_highs(self) -> highspy.HighsLp:
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = self.width, self.height
        lp.sense_ = highspy.ObjSense.kMaximize
        lp.col_cost_, lp.col_lower_ = np.zeros(self.width), np.zeros(self.width)
        lp.col_upper_ = np.array(self._uppers)
        lp.row_lower_, lp.row_upper_ = np.array(self._lower_rows), np.array(self._upper_rows)
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.array(self._starts, dtype=np.int32)
        lp.a_matrix_.index_ = np.array(self._indices, dtype=np.int32)
        lp.a_matrix_.value_ = np.array(self._coefficients)
        whole = set(self._whole)
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[column in whole] for column in range(self.width)]
        return lp


class _Silent(highspy.Highs):
    """The solver without its banner, which it prints while it is being made."""

    def enableCallbacks(self) -> None:  # noqa: N802 - the library's own name
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def _new_solver() -> highspy.Highs:
    solver = _Silent()  # type: ignore[no-untyped-call]
    settings = {
        "threads": 1,
        "random_seed": 0,
        "mip_rel_gap": 0.0,
        # Two quick ways to round a relaxed solution, which find plans where others search long.
        "mip_heuristic_run_zi_round": True,
        "mip_heuristic_run_shifting": True,
    }
    for name, value in settings.items():
        solver.setOptionValue(name, value)
    return solver


def _read(solver: highspy.Highs, *, has_bound: bool) -> Solution:
    """Return what the solver found; without whole columns it knows no bound but the optimum."""
    info, status = solver.getInfo(), solver.getModelStatus()
    is_proven = status == highspy.HighsModelStatus.kOptimal
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Solution(None, 0.0, info.mip_dual_bound, is_proven=False)
    value = info.objective_function_value
    values = np.array(solver.getSolution().col_value)
    if has_bound:
        return Solution(values, value, info.mip_dual_bound, is_proven)
    return Solution(values, value, value if is_proven else highspy.kHighsInf, is_proven)
