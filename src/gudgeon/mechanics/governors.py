"""Centrifugal governors of any geometry: what holds the weights in, and the speed at which each place of the sleeve stands.

The geometry is told once, as a Motion: for places along the sleeve's travel, where the weights stand and how they move with the
sleeve. From it follow controlling force, equilibrium speed, effort and dead band by virtual work, the same for weights on
bell-cranks (Hartnell), weights hung in arms (Watt, Porter) and weights held together by springs between them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

GRAVITY = 9.80665
"""Standard gravity [m/s2] (3rd CGPM, 1901). Textbook examples mostly take 9.81: it can be given to every function."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """How weights and sleeve move together, at one place or an array of places.

    Attributes
    ----------
    travel : of the sleeve from its lowest place, that of the slowest speed [m].
    radius : of a weight's centre from the axis [m].
    sleeve : travel of the sleeve for one of radius, ds/dr [1].
    rise : rise of a weight for one of radius, dh/dr [1]; counts only where the axis stands upright.
    lean : of the arm that works the sleeve from square to the axis [rad]; nought for hung arms.
    """

    travel: Number
    radius: Number
    sleeve: Number
    rise: Number
    lean: Number


def bell_crank(
    *,
    travel: Number,
    pivot_radius: Number,
    weight_arm: Number,
    sleeve_arm: Number,
    weight_angle: Number = 0.0,
    sleeve_angle: Number = 0.0,
    weights_above: bool = True,
) -> Motion:
    """Weights on pivoted levers whose other arm works the sleeve by a roller or a toe (Hartnell and its like).

    Parameters
    ----------
    travel : of the sleeve from its lowest place [m]. pivot_radius : pivots from the axis [m].
    weight_arm, sleeve_arm : pivot to the weight's centre, pivot to the middle of the roller [m].
    weight_angle : of the weight's arm from parallel with the axis, outward, at no travel [rad].
    sleeve_angle : of the sleeve's arm from square to the axis, past square, at no travel [rad].
    weights_above : the weights stand above their pivots, where the axis is upright.

    s = b (sin(psi0 + t) - sin psi0), r = p + a sin(alpha0 + t). A round roller on a flat sleeve keeps its centre one radius
    off, so its size does not enter. NaN where the arm cannot reach the travel.
    """
    start = np.sin(sleeve_angle)
    reach = np.divide(travel, sleeve_arm) + start
    lean = np.arcsin(np.where(np.abs(reach) <= 1, reach, np.nan))
    out = np.asarray(weight_angle) + lean - sleeve_angle
    sign = -1.0 if weights_above else 1.0
    return Motion(
        travel=plain(travel),
        radius=plain(np.asarray(pivot_radius) + np.multiply(weight_arm, np.sin(out))),
        sleeve=plain(np.multiply(sleeve_arm, np.cos(lean)) / np.multiply(weight_arm, np.cos(out))),
        rise=plain(sign * np.tan(out)),
        lean=plain(lean),
    )


def hung_arms(
    *,
    radius: Number,
    lowest_radius: Number,
    upper_arm: Number,
    lower_arm: Number,
    upper_offset: Number = 0.0,
    lower_offset: Number = 0.0,
) -> Motion:
    """Weights hung in arms above, with arms from the weights down to the sleeve (Watt, Porter).

    Parameters
    ----------
    radius : of the weights [m]. lowest_radius : at the sleeve's lowest place [m].
    upper_arm, lower_arm : [m]. upper_offset, lower_offset : joints from the axis, above and on the sleeve [m].

    sin(alpha) = (r - eu) / lu, sin(beta) = (r - el) / ll; ds/dr = tan alpha + tan beta, dh/dr = tan alpha.
    """
    upper = np.divide(np.subtract(radius, upper_offset), upper_arm)
    lower = np.divide(np.subtract(radius, lower_offset), lower_arm)
    high = _drop(lowest_radius, upper_arm, upper_offset) + _drop(lowest_radius, lower_arm, lower_offset)
    now = _drop(radius, upper_arm, upper_offset) + _drop(radius, lower_arm, lower_offset)
    alpha, beta = np.tan(np.arcsin(upper)), np.tan(np.arcsin(lower))
    return Motion(
        travel=plain(high - now),
        radius=plain(radius),
        sleeve=plain(alpha + beta),
        rise=plain(alpha),
        lean=plain(np.zeros_like(alpha)),
    )


def hung_radius(
    *,
    travel: Number,
    lowest_radius: Number,
    upper_arm: Number,
    lower_arm: Number,
    upper_offset: Number = 0.0,
    lower_offset: Number = 0.0,
) -> Number:
    """Radius of hung weights [m] at a travel of the sleeve [m]: ``hung_arms`` turned round, by halving; NaN past its reach."""
    most = np.minimum(np.add(upper_offset, upper_arm), np.add(lower_offset, lower_arm)) * (1 - 1e-9)
    shape = np.broadcast_shapes(np.shape(travel), np.shape(most), np.shape(lowest_radius))
    low, high = np.broadcast_to(lowest_radius, shape), np.broadcast_to(most, shape)
    arms = {"upper_arm": upper_arm, "lower_arm": lower_arm, "upper_offset": upper_offset, "lower_offset": lower_offset}
    reached = np.asarray(hung_arms(radius=plain(high), lowest_radius=lowest_radius, **arms).travel) >= travel
    for _ in range(48):
        middle = (low + high) / 2
        under = np.asarray(hung_arms(radius=plain(middle), lowest_radius=lowest_radius, **arms).travel) < travel
        low, high = np.where(under, middle, low), np.where(under, high, middle)
    return plain(np.where(reached, (low + high) / 2, np.nan))


def _drop(radius: Number, arm: Number, offset: Number) -> Number:
    return plain(np.sqrt(np.square(arm) - np.square(np.subtract(radius, offset))))


def cross_spring_pull(
    *, radius: Number, slack_radius: Number, rate: Number, share: Number = 1.0, springs: Number = 1
) -> Number:
    """Pull on each of two weights [N] by springs stretched from one to the other: 2 n k c^2 (r - r0).

    ``slack_radius`` r0 is where the springs go slack, ``rate`` k of one spring [N/m], ``share`` c how far along the weight's
    arm they are hooked. Nothing pulls where they are slack.
    """
    stretch = 2 * np.multiply(share, np.subtract(radius, slack_radius))
    return plain(np.multiply(springs, rate) * share * np.maximum(stretch, 0.0))


def controlling_force(
    *, motion: Motion, sleeve_load: Number, mass: Number, count: Number = 2, pull: Number = 0.0, gravity: Number = GRAVITY
) -> Number:
    """Force towards the axis that holds one weight in [N].

    Parameters
    ----------
    sleeve_load : all that presses the sleeve back: spring, dead weight times gravity, friction with its sign [N].
    mass : of one weight, with its share of the arms [kg]. count : of weights.
    pull : of springs between the weights, on each [N]. gravity : 0 where the axis lies level: the weights then balance.

    Fc = S/n ds/dr + m g dh/dr + P (virtual work; Khurmi and Gupta, Theory of Machines, ch. 18).
    """
    by_sleeve = np.divide(sleeve_load, count) * motion.sleeve
    return plain(by_sleeve + np.multiply(mass, gravity) * motion.rise + pull)


def equilibrium_speed(*, force: Number, mass: Number, radius: Number) -> Number:
    """Speed [rad/s] at which a weight stands: sqrt(Fc / (m r)); NaN where nothing holds it in."""
    ratio = np.divide(force, np.multiply(mass, radius))
    return plain(np.sqrt(np.where(ratio >= 0, ratio, np.nan)))


def speed(
    *, motion: Motion, sleeve_load: Number, mass: Number, count: Number = 2, pull: Number = 0.0, gravity: Number = GRAVITY
) -> Number:
    """Speed of the governor's shaft [rad/s] at which the sleeve stands; arguments as of ``controlling_force``."""
    force = controlling_force(motion=motion, sleeve_load=sleeve_load, mass=mass, count=count, pull=pull, gravity=gravity)
    return equilibrium_speed(force=force, mass=mass, radius=motion.radius)


def sleeve_load_for(
    *, speed: Number, motion: Motion, mass: Number, count: Number = 2, pull: Number = 0.0, gravity: Number = GRAVITY
) -> Number:
    """Load on the sleeve [N] that makes it stand at a speed [rad/s]: ``speed`` turned round; a spring is ordered by it."""
    inward = np.multiply(mass, np.square(speed)) * motion.radius - np.multiply(mass, gravity) * motion.rise - pull
    return plain(np.multiply(count, inward) / motion.sleeve)


def holding_force(*, speed: Number, motion: Motion, mass: Number, count: Number = 2) -> Number:
    """All centrifugal force of the weights, brought to the sleeve [N]: n m w^2 r dr/ds. What dead band is measured by."""
    return plain(np.multiply(count, mass) * np.square(speed) * motion.radius / motion.sleeve)


def watt_height(*, speed: Number, gravity: Number = GRAVITY) -> Number:
    """Height of a plain Watt governor's cone [m]: g / w^2, 895 / N^2 with N in rev/min."""
    return plain(np.divide(gravity, np.square(speed)))


def sensitiveness(*, low: Number, high: Number) -> Number:
    """Spread of speed over its mean, 2 (N2 - N1) / (N1 + N2); some books print its reciprocal."""
    return plain(2 * np.subtract(high, low) / np.add(high, low))


def effort(*, change: Number, holding: Number) -> Number:
    """Mean force at the sleeve [N] for a small fractional change c of speed: c times the holding force.

    The force starts at 2c and falls to nothing as the sleeve gives way; c^2 is left out, which is right to c/2.
    """
    return plain(np.multiply(change, holding))


def power(*, effort: Number, lift: Number) -> Number:
    """Work of the governor for a change of speed [J]: effort times lift of the sleeve."""
    return plain(np.multiply(effort, lift))


def friction_speeds(*, speed: Number, friction: Number, holding: Number) -> tuple[Number, Number]:
    """Speeds between which friction of so much at the sleeve [N] keeps it still: w sqrt(1 -+ F / Q).

    Q is the holding force at that speed. The lower is 0 where friction is as strong as the governor.
    """
    share = np.divide(friction, holding)
    return tuple(plain(np.multiply(speed, np.sqrt(np.maximum(1 + sign * share, 0.0)))) for sign in (-1.0, 1.0))  # type: ignore[return-value]


def dead_band(*, speed: Number, friction: Number, holding: Number, slope: Number, slack: Number) -> Number:
    """How far the speed may move before the throttle answers [rad/s]: friction's band and slack times dw/ds, added.

    ``slope`` is the rise of speed for travel of the sleeve [rad/s per m]: without droop slack costs no speed, only time.
    """
    low, high = friction_speeds(speed=speed, friction=friction, holding=holding)
    return plain(np.subtract(high, low) + np.abs(slope) * np.asarray(slack))


def sleeve_mass(*, motion: Motion, mass: Number, count: Number = 2, sleeve: Number = 0.0) -> Number:
    """All that moves, as one mass at the sleeve [kg]: n m ((dr/ds)^2 + (dh/ds)^2) + sleeve."""
    there = (1 + np.square(motion.rise)) / np.square(motion.sleeve)
    return plain(np.multiply(count, mass) * there + sleeve)


# ---- what wear does at a joint


def flat_depth(*, width: Number, diameter: Number) -> Number:
    """How much nearer a roller's middle stands on a flat of some width [m]: R - sqrt(R^2 - w^2/4)."""
    radius = np.divide(diameter, 2)
    return plain(radius - np.sqrt(np.square(radius) - np.square(np.divide(width, 2))))


def play_under_load(*, clearance: Number, friction: Number) -> Number:
    """Lost motion of a joint that is always pressed one way [m]: c sin(atan mu).

    The pin never lifts off: before it slips it climbs the hole by the angle of friction on one side or the other, its middle by
    c/2 sin(phi) each. A joint whose load turns round loses the whole clearance c.
    """
    return plain(np.multiply(clearance, friction) / np.sqrt(1 + np.square(friction)))


def pivot_play_at_sleeve(*, play: Number, weight_arm: Number, sleeve_arm: Number) -> Number:
    """Travel that play at a bell-crank's pivot takes at the sleeve [m]: p sqrt(1 + (b/a)^2), in its worst direction.

    Along the axis the roller goes with the pivot; across it the lever turns about the weight, by b/a.
    """
    return plain(np.multiply(play, np.sqrt(1 + np.square(np.divide(sleeve_arm, weight_arm)))))


def pin_drag(*, load: Number, friction: Number, diameter: Number, arm: Number) -> Number:
    """Force at the end of an arm [N] that overcomes a pin's friction: mu R d / (2 arm)."""
    return plain(np.multiply(friction, load) * np.divide(diameter, 2) / arm)


def roller_drag(*, load: Number, friction: Number, pin: Number, roller: Number, lean: Number, turns: bool = True) -> Number:
    """Force along the axis [N] that a roller's rubbing costs at the sleeve: mu Q (d/D) |tan(lean)|; a stuck one has no d/D.

    The roller runs across the sleeve by tan(lean) for each length of travel; one that turns rubs only on its pin.
    """
    share = np.divide(pin, roller) if turns else 1.0
    return plain(np.multiply(friction, load) * share * np.abs(np.tan(lean)))
