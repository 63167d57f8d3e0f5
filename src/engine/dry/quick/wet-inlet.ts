import { pumpExcess, ultimatePressure } from '../../rig/pump.ts';
import type { RigSurface } from '../rig-surface.ts';
import type { AtPump } from './march.ts';

/** Step of ln(throughput) at which the inlet pressure of a pump with a speed table is kept; 1e-3 between them at most. */
const STEP = 0.05;
/** ln of Pa m3/s: from far below any flow to far above. */
const LOWEST = -30;
const CELLS = 1000;

/** Vapour pressure at the pump inlet by throughput and composition; a speed table is inverted once per step of ln Q. */
export function atPumpOf({ rig: { pump }, ultimate }: RigSurface): AtPump {
  const table = pump.speedTable;
  if (table === undefined || table.length === 0) return (q, fraction) => fraction * (ultimate + q / pump.speed);
  const known = new Float64Array(CELLS + 1).fill(Number.NaN);
  const inletAt = (cell: number): number => {
    const value = known[cell] ?? Number.NaN;
    if (!Number.isNaN(value)) return value;
    const found = ultimatePressure(pump) + pumpExcess(pump, Math.exp(LOWEST + cell * STEP));
    known[cell] = found;
    return found;
  };
  return (q, fraction) => {
    if (!(q > 0)) return fraction * ultimate;
    const place = Math.max(0, Math.min(CELLS - 1e-9, (Math.log(q) - LOWEST) / STEP));
    const cell = Math.floor(place);
    const low = inletAt(cell);
    // straight over ln Q in ln p: inlet pressures are near powers of the throughput
    return fraction * low * (inletAt(cell + 1) / low) ** (place - cell);
  };
}
