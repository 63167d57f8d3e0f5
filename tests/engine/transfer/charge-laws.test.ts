import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { type ChargeMoment, type Charging, charge, cylinderVolume } from '../../../src/engine/transfer/charge.ts';
import type { VesselState } from '../../../src/engine/transfer/charge-vessel.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { core, hose } from '../rig/fakes.ts';

const AMBIENT = 293.15;

function rigOf(bore: number, coreBore: number): Rig {
  return {
    name: 'rig',
    pump: { name: 'pump', speed: 1, ultimate: 0 },
    parts: [hose(bore, 1.5), core(coreBore, 0.006)],
  };
}

interface Given {
  readonly name: string;
  readonly mass: number;
  readonly as: 'liquid' | 'vapour';
  readonly warm: number;
  readonly cylinderHeat: number;
  readonly bath: number;
  readonly heat: number;
  readonly volume: number;
  readonly cylinder: number;
}

const USUAL: Given = {
  name: 'R-134a',
  mass: 2,
  as: 'liquid',
  warm: AMBIENT,
  cylinderHeat: 0,
  bath: AMBIENT,
  heat: 0,
  volume: 0.008,
  cylinder: 10,
};

function chargingOf(given: Partial<Given> = {}): Charging {
  const { name, mass, as, warm, cylinderHeat, bath, heat, volume, cylinder } = { ...USUAL, ...given };
  return {
    refrigerant: refrigerantByName(name),
    mass,
    as,
    cylinder: { charge: cylinder, temperature: warm, heat: cylinderHeat, bath },
    system: { volume, heat, ambient: AMBIENT },
  };
}

const NARROW = rigOf(0.0048, 0.0016);

/** Infinite where the charge stops short, so that it compares as later. */
function timeOf(given: Partial<Given>, rig = NARROW): number {
  const { end, time } = charge(chargingOf(given), rig);
  return end === 'done' ? time : Number.POSITIVE_INFINITY;
}

function issueOf(given: Partial<Given>): string {
  try {
    charge(chargingOf(given), NARROW);
  } catch (error) {
    if (error instanceof Fault) return error.issue.kind;
    throw error;
  }
  return 'none';
}

const FEW = { numRuns: 10 };
const ROUNDING = 1 + 1e-4;
const refrigerant = fc.constantFrom('R-134a', 'R-410A', 'R-32', 'R-290', 'R-407C');
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('what lengthens and shortens a charge of liquid', () => {
  it('more is never in sooner', () => {
    fc.assert(
      fc.property(refrigerant, number(0.1, 2.5), number(0.1, 2.5), number(0, 30), (name, a, b, heat) => {
        const less = timeOf({ name, mass: Math.min(a, b), heat });
        expect(less).toBeLessThanOrEqual(timeOf({ name, mass: Math.max(a, b), heat }) * ROUNDING);
      }),
      FEW,
    );
  });

  it('a wider core or hose is never later', () => {
    fc.assert(
      fc.property(refrigerant, number(0.001, 0.005), number(1, 2), number(1, 2), (name, bore, core, hose) => {
        const narrow = timeOf({ name, mass: 1.5 }, rigOf(0.0048, bore));
        expect(timeOf({ name, mass: 1.5 }, rigOf(0.0048 * hose, bore * core))).toBeLessThanOrEqual(narrow * ROUNDING);
      }),
      FEW,
    );
  });

  it('a warmer cylinder is never later', () => {
    fc.assert(
      fc.property(refrigerant, number(278, 308), number(0, 10), (name, warm, more) => {
        const cold = timeOf({ name, mass: 1.5, warm, bath: warm });
        expect(timeOf({ name, mass: 1.5, warm: warm + more, bath: warm + more })).toBeLessThanOrEqual(cold * ROUNDING);
      }),
      FEW,
    );
  });

  it('the flow into a system at vacuum is choked, and steady but for the cooling of the cylinder', () => {
    const moments: ChargeMoment[] = [];
    charge(chargingOf({ mass: 0.5 }), NARROW, { times: [0, 5, 10], see: (moment) => moments.push(moment) });
    expect(moments.map(({ choked }) => choked)).toEqual([true, true, true]);
    expect(moments[2]?.charged).toBeCloseTo((moments[0]?.rate ?? 0) * 10, 2);
  });
});

describe('where a charge stops short', () => {
  it('liquid stops where cylinder and system have the same pressure, and a warm bath brings the rest in', () => {
    const given = { mass: 3, heat: 20, cylinderHeat: 3 };
    const short = charge(chargingOf(given), NARROW);
    expect(short.end).toBe('met');
    expect(short.charged).toBeLessThan(3);
    expect(short.last.system.pressure / short.last.cylinder.pressure).toBeCloseTo(1, 3);
    expect(charge(chargingOf({ ...given, cylinderHeat: 30, bath: 308.15 }), NARROW).end).toBe('done');
  });

  it('vapour into a system that sheds no heat ends near saturated vapour at Ambient', () => {
    const { end, charged } = charge(chargingOf({ as: 'vapour' }), NARROW);
    expect(end).toBe('met');
    expect(charged).toBeLessThan(0.008 * refrigerantByName('R-134a').saturatedVapourDensity(AMBIENT));
  });

  it('the cylinder runs out of liquid', () => {
    expect(charge(chargingOf({ mass: 1.99, cylinder: 2, volume: 0.05 }), NARROW).end).toBe('dry');
  });
});

/** J of a vessel from its temperature and its liquid, by u = h - p v of each phase */
function energyOf(refrigerant: Refrigerant, mass: number, { temperature: t, liquid }: VesselState): number {
  const ofLiquid = refrigerant.liquidEnthalpy(t) - refrigerant.bubblePressure(t) / refrigerant.liquidDensity(t);
  const ofVapour = refrigerant.vapourEnthalpy(t) - refrigerant.dewPressure(t) / refrigerant.saturatedVapourDensity(t);
  return liquid * ofLiquid + (mass - liquid) * ofVapour;
}

/** m3 that the phases of a vessel take up */
function volumeOf(refrigerant: Refrigerant, mass: number, { temperature: t, liquid }: VesselState): number {
  return liquid / refrigerant.liquidDensity(t) + (mass - liquid) / refrigerant.saturatedVapourDensity(t);
}

describe('balances', () => {
  it.each([
    { as: 'liquid', mass: 3 },
    { as: 'liquid', mass: 3, cylinderHeat: 40, bath: 313.15, heat: 30 },
    { as: 'liquid', mass: 2, name: 'R-410A', cylinderHeat: 5 },
    { as: 'vapour', mass: 1, cylinderHeat: 50, bath: 313.15, heat: 50 },
  ] as const)('of mass close to 1e-6 and of energy to 1e-4: %o', (given) => {
    const charging = chargingOf(given);
    const { refrigerant, cylinder, system } = charging;
    const vessel = cylinderVolume(charging);
    const { last, charged } = charge(charging, NARROW);
    const left = cylinder.charge - charged;
    // the phases of each vessel fill it: what left one is in the other
    expect(volumeOf(refrigerant, left, last.cylinder) / vessel).toBeCloseTo(1, 6);
    expect(volumeOf(refrigerant, charged, last.system) / system.volume).toBeCloseTo(1, 6);

    const liquid = ((r) => (cylinder.charge - r * vessel) / (1 - r / refrigerant.liquidDensity(cylinder.temperature)))(
      refrigerant.saturatedVapourDensity(cylinder.temperature),
    );
    const start: VesselState = { temperature: cylinder.temperature, pressure: 0, liquid, state: 'two phases' };
    const before = energyOf(refrigerant, cylinder.charge, start);
    const after = energyOf(refrigerant, left, last.cylinder) + energyOf(refrigerant, charged, last.system);
    const moved = charged * refrigerant.latentHeat(cylinder.temperature);
    expect(Math.abs(after - before - last.heatIn) / moved).toBeLessThan(1e-4);
  });
});

describe('what is refused before anything flows', () => {
  it.each([
    ['a charge that does not fit into the volume', { mass: 9, volume: 0.008 }, 'no-solution'],
    ['more than the cylinder holds', { mass: 11, volume: 0.05 }, 'limit'],
    ['a cylinder above the critical temperature', { name: 'R-744', warm: 310 }, 'limit'],
    ['a bath in which a full cylinder fills with liquid', { bath: 353.15, cylinderHeat: 10 }, 'limit'],
    ['a blend with a glide as vapour', { name: 'R-407C', as: 'vapour' }, 'wrong'],
  ] as const)('%s', (_, given, kind) => {
    expect(issueOf(given)).toBe(kind);
  });
});

describe('vapour that goes over as fast as heat boils it', () => {
  it.each([0.5, 5])(
    'takes as long through any rig that is wide enough, with %d W/K on the cylinder',
    (cylinderHeat) => {
      const given = {
        mass: 0.6,
        as: 'vapour' as const,
        cylinder: 5,
        cylinderHeat,
        bath: 303.15,
        volume: 0.02,
        heat: 50,
      };
      const wide = (bore: number): Rig => ({ ...rigOf(bore, 0.001), parts: [hose(bore, 1)] });
      const through = [0.0127, 0.016, 0.019, 0.05, 0.2].map((bore) => charge(chargingOf(given), wide(bore)));
      for (const { end, time } of through) {
        expect(end).toBe('done');
        expect(time / (through[0]?.time ?? 0)).toBeCloseTo(1, 2);
      }
    },
  );
});
