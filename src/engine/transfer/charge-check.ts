import { raise } from '../../faults/issue.ts';
import { findRoot } from '../../numerics/root.ts';
import type { Charging } from './charge-moment.ts';

const ZERO_CELSIUS = 273.15;
const celsius = (kelvin: number): number => kelvin - ZERO_CELSIUS;
const LITRES = 1e3;

/** A closed volume keeps this part of it free of liquid at Ambient. Common practice for vessels, no source. */
export const MOST_FULL = 0.8;
/** Part of the cylinder that liquid may come to fill before it counts as full. */
const BRIM = 0.98;

/** Raises what is wrong with a charging before anything flows. */
export function checkCharge(charging: Charging): void {
  const { refrigerant, mass, cylinder, system } = charging;
  const inTable = (argument: string, temperature: number): void => {
    if (temperature >= refrigerant.criticalTemperature || temperature > refrigerant.highest) {
      const limit = celsius(Math.min(refrigerant.highest, refrigerant.criticalTemperature));
      const todo = `${refrigerant.name} has no liquid, or nearly none, above its critical temperature of ${celsius(refrigerant.criticalTemperature).toFixed(1)} C: charge it when it is cooler.`;
      raise({ kind: 'limit', argument, value: celsius(temperature), rule: 'at most', limit, unit: 'C', todo });
    }
    if (temperature < refrigerant.lowest)
      raise({
        kind: 'limit',
        argument,
        value: celsius(temperature),
        rule: 'at least',
        limit: celsius(refrigerant.lowest),
        unit: 'C',
      });
  };
  inTable('Ambient', system.ambient);
  inTable('Cylinder temperature', cylinder.temperature);
  inTable('Bath temperature', cylinder.bath);
  if (charging.as === 'vapour' && refrigerant.zeotropic)
    raise({
      kind: 'wrong',
      argument: 'Charge as',
      found: `vapour of ${refrigerant.name}, whose parts boil apart so that the vapour is not the blend`,
      allowed: 'liquid for such a blend',
      todo: 'Charge it as liquid.',
    });
  if (!(mass < cylinder.charge))
    raise({
      kind: 'limit',
      argument: 'Mass',
      value: mass,
      rule: 'below',
      limit: cylinder.charge,
      unit: 'kg',
      todo: 'That is what the cylinder holds: give a larger Cylinder charge in the conditions, or charge in parts.',
    });
  const holds = MOST_FULL * refrigerant.liquidDensity(system.ambient) * system.volume;
  if (mass > holds)
    raise({
      kind: 'no-solution',
      reason: `${mass.toPrecision(4)} kg of ${refrigerant.name} does not fit into ${(system.volume * LITRES).toPrecision(4)} L: at ${celsius(system.ambient).toFixed(0)} C it takes ${holds.toPrecision(4)} kg at the most, with a fifth of the volume left for the liquid to expand`,
      todo: 'Check the charge and the Volume of the conditions.',
    });
  const warmest = Math.max(cylinder.temperature, cylinder.bath);
  const filled = MOST_FULL * refrigerant.liquidDensity(Math.max(cylinder.temperature, system.ambient));
  const room = (temperature: number): number => BRIM * refrigerant.liquidDensity(temperature) - filled;
  if (room(warmest) < 0) {
    const limit = findRoot(room, system.ambient, warmest, { absolute: 0.01 });
    const todo = 'Liquid would fill a full cylinder that gets this warm, and may burst it: use a cooler bath.';
    const value = celsius(warmest);
    raise({
      kind: 'limit',
      argument: 'Bath temperature',
      value,
      rule: 'below',
      limit: celsius(limit),
      unit: 'C',
      todo,
    });
  }
}
