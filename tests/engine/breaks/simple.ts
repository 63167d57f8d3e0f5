import type { Contents, Surroundings } from '../../../src/engine/breaks/contents.ts';
import type { FeedCurve } from '../../../src/engine/breaks/feed.ts';
import type { Outflow } from '../../../src/engine/breaks/outflow.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { pchip } from '../../../src/numerics/interpolate.ts';
import { AIR, pumpOf, rigOf } from '../rig/fakes.ts';
import { TRIPLE, TRIPLE_PA } from '../water-facts.ts';

export { EVAPORATION, MELTING, RV, TRIPLE, TRIPLE_PA } from '../water-facts.ts';

/** Gear so simple that all it does has a closed form: a pump of one speed, and a feed in proportion to the difference. */

/** m3/s */
export const SPEED = 1e-3;
const curve = rigCurve(prepareRig(rigOf(pumpOf(SPEED)), AIR));

/** Q = S p: every gas falls by exp(-S t/V). */
export const PUMP: Outflow = {
  dry: curve,
  throughput: (pressure) => SPEED * pressure,
  secondsPerVolume: (from, to) => Math.log(from / to) / SPEED,
  vapourAtPump: (pressure, fraction) => pressure * fraction,
};

/** m3/s */
export const FEED_SPEED = 2e-4;
export const SUPPLY = 3e5;
/** Q = K (p_s - p): the difference falls by exp(-K t/V). */
export const FEED: FeedCurve = {
  supply: SUPPLY,
  lnK: pchip([Math.log(1e-3), 0, Math.log(SUPPLY)], [FEED_SPEED, FEED_SPEED, FEED_SPEED].map(Math.log)),
};

export const VOLUME = 0.02;
export const AMBIENT = 293.15;

export const AROUND: Surroundings = { ambient: AMBIENT, volume: VOLUME, heat: 0.5, metal: 0, load: NO_LOAD };

export const DRY: Contents = {
  time: 100,
  state: 'dry',
  first: 3000,
  fed: 1000,
  vapour: 400,
  water: 0,
  ice: 0,
  temperature: AMBIENT,
};
/** Water and ice together: the temperature and the vapour's pressure stand still. */
export const FREEZING: Contents = {
  time: 100,
  state: 'freezing',
  first: 3000,
  fed: 1000,
  vapour: TRIPLE_PA,
  water: 5e-3,
  ice: 1e-3,
  temperature: TRIPLE,
};
