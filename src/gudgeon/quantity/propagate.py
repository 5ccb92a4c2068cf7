"""How uncertain a result is when its inputs are: to first order for smooth models, by draws for any model.

A model is called by keyword with arrays of one length and returns one such array, or a tuple of them: any function of
the mechanics room as it stands.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from gudgeon.quantity.draws import quantiles, shortest_interval

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

_IMAGINARY = 1e-20
_NUDGE = 1e-3
BLOCK = 1024
Model = Callable[..., Any]


class NotSmooth(ValueError):
    """The model takes an absolute value, a larger-of or a comparison that the first-order method cannot pass."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """An input: best estimate, standard uncertainty (same unit), degrees of freedom (inf where it is known well)."""

    value: float
    uncertainty: float
    freedom: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Propagated:
    """A first-order result of m outputs from n inputs.

    Attributes
    ----------
    values, uncertainty, freedom : one each per output, shape (m,).
    covariance : of the outputs, shape (m, m).
    sensitivity : change of each output for one unit of each input, shape (m, n).
    names : of the inputs, in the order of ``sensitivity``.
    """

    names: tuple[str, ...]
    values: Floats
    covariance: Floats
    freedom: Floats
    sensitivity: Floats

    @property
    def uncertainty(self) -> Floats:
        """Combined standard uncertainty of each output."""
        return np.sqrt(np.diag(self.covariance))

    @property
    def correlation(self) -> Floats:
        """Correlation coefficients of the outputs; 0 where an output has no uncertainty."""
        scale = np.outer(self.uncertainty, self.uncertainty)
        return np.divide(self.covariance, scale, out=np.zeros_like(scale), where=scale > 0)

    def expanded(self, coverage: float = 0.95) -> Floats:
        """Expanded uncertainty of each output at this coverage."""
        factors = np.array([coverage_factor(freedom=float(freedom), coverage=coverage) for freedom in self.freedom])
        return np.asarray(factors * self.uncertainty, dtype=float)


def linear(
    model: Model, inputs: Mapping[str, Input], *, correlations: Mapping[tuple[str, str], float] | None = None
) -> Propagated:
    """The law of propagation of uncertainty, JCGM 100:2008 equation (13), with the Jacobian by complex step.

    df/dx = Im f(x + ih)/h with h = 1e-20, exact to rounding for an analytic model (Squire and Trapp, SIAM Review 40, 1998).
    Effective degrees of freedom by Welch-Satterthwaite, JCGM 100:2008 equation (G.2b); inputs that are correlated count as
    one term with the least freedom among them. Neglects the second-order terms of JCGM 100:2008 5.1.2 note: where they
    matter, as at a maximum, use draws. Raises NotSmooth where a real step along all inputs contradicts the Jacobian.
    """
    names = tuple(inputs)
    sigma = np.array([each.uncertainty for each in inputs.values()])
    values, jacobian = _jacobian(model, inputs, sigma)
    correlation = _correlation(names, correlations or {})
    within = correlation * np.outer(sigma, sigma)
    covariance = jacobian @ within @ jacobian.T
    freedom = _freedom(jacobian, within, correlation, np.array([each.freedom for each in inputs.values()]))
    return Propagated(names=names, values=values, covariance=covariance, freedom=freedom, sensitivity=jacobian)


def _jacobian(model: Model, inputs: Mapping[str, Input], sigma: Floats) -> tuple[Floats, Floats]:
    """Values (m,) and derivatives (m, n) in one call: a column as it is, a complex step per input, two real steps to check."""
    count = len(inputs)
    columns: dict[str, NDArray[np.complex128]] = {}
    for place, (name, each) in enumerate(inputs.items()):
        column = np.full(count + 3, complex(each.value))
        column[1 + place] += 1j * _IMAGINARY
        column[-2:] += np.array([1.0, -1.0]) * _NUDGE * sigma[place]
        columns[name] = column
    outputs = _stacked(model(**columns), count + 3)
    values, jacobian = outputs[:, 0].real.copy(), outputs[:, 1:-2].imag / _IMAGINARY
    _refuse_rough(outputs, jacobian, sigma)
    return values, jacobian


def _stacked(returned: Any, length: int) -> NDArray[np.complex128]:
    parts = returned if isinstance(returned, tuple | list) else [returned]
    rows = [np.broadcast_to(np.asarray(part, dtype=complex), (*np.shape(part)[:-1], length)) for part in parts]
    return np.concatenate([row.reshape(-1, length) for row in rows])


def _refuse_rough(outputs: NDArray[np.complex128], jacobian: Floats, sigma: Floats) -> None:
    found = (outputs[:, -2].real - outputs[:, -1].real) / 2
    expected = jacobian @ sigma * _NUDGE
    allowed = 0.01 * np.abs(jacobian) @ sigma * _NUDGE + 1e-13 * np.abs(outputs[:, 0].real)
    if rough := np.flatnonzero(~(np.abs(found - expected) <= allowed)).tolist():
        place = rough[0]
        raise NotSmooth(
            f"Output {place} moves by {found[place]:.3g} where its slope says {expected[place]:.3g}; "
            "a smooth model, or propagation by draws, would be right."
        )


def _correlation(names: tuple[str, ...], given: Mapping[tuple[str, str], float]) -> Floats:
    matrix = np.eye(len(names))
    for (first, second), value in given.items():
        if first not in names or second not in names or first == second or not -1 <= value <= 1:
            raise ValueError(
                f"A correlation of {value} between {first} and {second} was given; two inputs and -1 to 1 are right."
            )
        a, b = names.index(first), names.index(second)
        matrix[a, b] = matrix[b, a] = value
    return matrix


def _freedom(jacobian: Floats, within: Floats, correlation: Floats, freedoms: Floats) -> Floats:
    """Total variance squared over the sum of each group's variance squared over its freedom; inf where that sum is nought."""
    total = np.sum((jacobian @ within) * jacobian, axis=1)
    below = np.square(np.square(jacobian) * np.diag(within)) @ np.where(_alone(correlation), 1 / freedoms, 0.0)
    for group in _groups(correlation):
        part = jacobian[:, group]
        variance = np.sum((part @ within[np.ix_(group, group)]) * part, axis=1)
        below += np.square(variance) / freedoms[group].min()
    return np.asarray(np.divide(np.square(total), below, out=np.full_like(total, math.inf), where=below > 0), dtype=float)


def _alone(correlation: Floats) -> NDArray[np.bool_]:
    return np.asarray(np.count_nonzero(correlation, axis=1) == 1)


def _groups(correlation: Floats) -> list[list[int]]:
    """Inputs tied together by correlation, directly or through others; those that stand alone are left out."""
    left = {int(place) for place in np.flatnonzero(~_alone(correlation))}
    groups: list[list[int]] = []
    while left:
        group, waiting = set[int](), {min(left)}
        while waiting:
            group |= waiting
            waiting = {int(other) for one in waiting for other in np.flatnonzero(correlation[one])} - group
        left -= group
        groups.append(sorted(group))
    return groups


def coverage_factor(*, freedom: float, coverage: float = 0.95) -> float:
    """Student's two-sided factor k, with the freedom cut to a whole number as JCGM 100:2008 G.4.1 note 1 has it."""
    from scipy.special import ndtri, stdtrit

    if not 0 < coverage < 1:
        raise ValueError(f"A coverage of {coverage} was given; between 0 and 1 would be right.")
    upper = (1 + coverage) / 2
    return float(ndtri(upper) if math.isinf(freedom) else stdtrit(max(1, math.floor(freedom + 1e-9)), upper))


def by_draws(model: Model, draws: Mapping[str, ArrayLike], *, block: int = BLOCK) -> Floats:
    """The model on draws of its inputs, in blocks that stay in the processor's cache: (count,), or (m, count) for a tuple.

    ``draws`` are arrays of one length, and plain numbers that do not vary. Raises ValueError where the lengths differ.
    """
    arrays = {name: np.asarray(each, dtype=float) for name, each in draws.items()}
    lengths = {array.size for array in arrays.values() if array.ndim}
    if len(lengths) != 1:
        raise ValueError(f"Draws of {sorted(lengths)} values were given; one length for all would be right.")
    count = lengths.pop()
    pieces: list[Floats] = []
    for start in range(0, count, block):
        end = min(start + block, count)
        part = model(**{name: array[start:end] if array.ndim else float(array) for name, array in arrays.items()})
        rows = part if isinstance(part, tuple | list) else [part]
        stacked = np.stack([np.broadcast_to(np.asarray(row, dtype=float), (end - start,)) for row in rows])
        pieces.append(stacked if isinstance(part, tuple | list) else stacked[0])
    return np.concatenate(pieces, axis=-1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What draws of one result say: mean, standard uncertainty, and two coverage intervals (JCGM 101:2008, 7.6 and 7.7)."""

    mean: float
    uncertainty: float
    symmetric: tuple[float, float]
    shortest: tuple[float, float]


def spread_of(draws: ArrayLike, *, coverage: float = 0.95) -> Spread:
    """Mean, standard deviation, the interval with equal chances outside each end, and the shortest interval."""
    values = np.asarray(draws, dtype=float)
    tail = (1 - coverage) / 2
    low, high = quantiles(values, (tail, 1 - tail))
    return Spread(
        mean=float(values.mean()),
        uncertainty=float(values.std(ddof=1)),
        symmetric=(low, high),
        shortest=shortest_interval(values, coverage),
    )
