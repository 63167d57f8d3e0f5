/**
 * Inertia, entrance losses and choking belong to the continuum: in rarefied gas they fade with the weight
 * w(delta) = delta/(1 + delta) at the local pressure. Unweighted they spoil the molecular limit of short tubes.
 * The weight is this project's own choice; nothing published fixes it. It comes in earlier than coarse particle
 * simulations of very short tubes do (see the limits of `prepareTube`).
 */
export function inertiaWeight(delta: number): number {
  return delta / (1 + delta);
}

/** w(delta)/delta^2, which has a value wherever delta has one. */
export function inertiaPerSquare(delta: number): number {
  return 1 / (delta * (1 + delta));
}

/** Rarefaction under which the exit cannot fall: the root of delta^2 = beta w(delta), with beta = G^2 R_s T/(mu v0/a)^2. */
export function chokedExit(beta: number): number {
  return (2 * beta) / (1 + Math.sqrt(1 + 4 * beta));
}
