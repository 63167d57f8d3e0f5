import { raise } from '../../faults/issue.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';

const ZERO_CELSIUS = 273.15;
/**
 * Triple points (K) of refrigerants that freeze where a machine can bring them, and what they become. Sources: Span and
 * Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509; Gao et al., J. Phys. Chem. Ref. Data 49 (2020) 013102.
 */
const FREEZING: Readonly<Record<string, readonly [number, string]>> = {
  'R-744': [216.592, 'dry ice'],
  'R-717': [195.49, 'solid ammonia'],
};
/** K by which the properties are carried on below their table. */
const BELOW_TABLE = 40;

const celsius = (kelvin: number): number => Number((kelvin - ZERO_CELSIUS).toFixed(2));

/** Raises faults for surroundings or a condensing temperature (Ambient and approach) at which there is no liquid. */
export function checkAmbient(refrigerant: Refrigerant, ambient: number, approach: number): void {
  const { name, criticalTemperature, lowest, highest } = refrigerant;
  const check = (temperature: number, argument: string): void => {
    if (temperature >= criticalTemperature)
      raise({
        kind: 'limit',
        argument,
        value: celsius(temperature),
        rule: 'below',
        limit: celsius(criticalTemperature),
        unit: 'C',
        todo: `Above its critical temperature ${name} has no liquid to boil or to condense: work where it is cooler.`,
      });
    if (temperature > highest || temperature < lowest)
      raise({
        kind: 'model-range',
        model: `the table of ${name}`,
        argument,
        value: celsius(temperature),
        min: celsius(lowest),
        max: celsius(highest),
        unit: 'C',
      });
  };
  check(ambient, 'Ambient');
  check(ambient + approach, 'Ambient and the Approach of the machine');
}

/** The temperature (K) that the liquid must not reach, and the fault if it does. */
export function solidBelow(refrigerant: Refrigerant): { readonly temperature: number; readonly raise: () => never } {
  const freezing = FREEZING[refrigerant.name];
  if (freezing !== undefined) {
    const [triple, solid] = freezing;
    return {
      // the table may end a little above
      temperature: Math.max(triple, refrigerant.lowest),
      raise: () =>
        raise({
          kind: 'no-solution',
          reason: `the liquid cools to ${celsius(triple)} C and freezes to ${solid} before it is gone, which blocks lines and boils again later`,
          todo: 'Take the liquid out as liquid (Recover as liquid), give more Heat, or draw slower.',
        }),
    };
  }
  const temperature = refrigerant.lowest - BELOW_TABLE;
  return {
    temperature,
    raise: () =>
      raise({
        kind: 'no-solution',
        reason: `the liquid cools to ${celsius(temperature)} C before it is gone, where the properties of ${refrigerant.name} end`,
        todo: 'Give more Heat, the heat conductance to the liquid, or take the liquid out as liquid (Recover as liquid).',
      }),
  };
}

export function raiseNeverDry(refrigerant: Refrigerant, heat: number, mode: string): never {
  return raise({
    kind: 'no-solution',
    reason:
      heat > 0 || mode === 'push-pull'
        ? `the liquid ${refrigerant.name} is not gone within a year`
        : 'Heat of the conditions is 0 or not given: without heat from outside the liquid cools until its pressure is the lowest that the machine draws from, and stays',
    todo:
      heat > 0
        ? 'Take a wider rig or a larger machine, or give more Heat.'
        : 'Give Heat, the heat conductance from the surroundings to the liquid, such as "20 W/K", or take the liquid out as liquid (Recover as liquid).',
  });
}
