/** The speed of a finger is that of its last moments, ms. */
const LATELY_MS = 100;
/** The time in which a coasting surface loses some two thirds of its speed, ms. */
const FADE_MS = 325;
/** Slower than this, px/ms, nothing coasts: a pixel in three frames. */
const SLOWEST = 0.02;

interface Step {
  readonly at: number;
  readonly x: number;
  readonly y: number;
}

/** What moves on for a moment when a finger lets go of it. */
export interface Coast {
  /** Notes by how much a finger has moved something, at which moment. */
  note(at: number, x: number, y: number): void;
  /** Moves on from the pace that was noted; not for people who asked their system for less motion. */
  start(at: number, move: (x: number, y: number) => void): void;
  /** Stops and forgets; true if something was moving. */
  stop(): boolean;
}

export function createCoast(): Coast {
  const still = matchMedia('(prefers-reduced-motion: reduce)');
  let steps: Step[] = [];
  let frame: number | undefined;

  return {
    note(at, x, y) {
      steps = [...steps.filter((step) => at - step.at < LATELY_MS), { at, x, y }];
    },
    start(at, move) {
      const lately = steps.filter((step) => at - step.at < LATELY_MS);
      const first = lately[0];
      steps = [];
      if (first === undefined || still.matches) return;
      // the way of the first step was made before its moment
      const took = Math.max(1, at - first.at);
      let x = lately.slice(1).reduce((sum, step) => sum + step.x, 0) / took;
      let y = lately.slice(1).reduce((sum, step) => sum + step.y, 0) / took;
      let before: number | undefined;
      const go = (now: number) => {
        const elapsed = now - (before ?? now);
        before = now;
        move(x * elapsed, y * elapsed);
        const fade = Math.exp(-elapsed / FADE_MS);
        x *= fade;
        y *= fade;
        frame = Math.hypot(x, y) < SLOWEST ? undefined : requestAnimationFrame(go);
      };
      frame = requestAnimationFrame(go);
    },
    stop() {
      steps = [];
      if (frame === undefined) return false;
      cancelAnimationFrame(frame);
      frame = undefined;
      return true;
    },
  };
}
