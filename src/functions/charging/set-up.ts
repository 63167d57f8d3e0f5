import { refrigerantByName } from '../../engine/refrigerant/by-name.ts';
import type { Charging } from '../../engine/transfer/charge.ts';
import { raise } from '../../faults/issue.ts';
import type { Conditions } from '../../tables/conditions.ts';

/** What the conditions say about a charge. Raises `missing` without a Volume, `unknown` for the refrigerant. */
export function chargingOf(name: string, mass: number, conditions: Conditions): Charging {
  const refrigerant = refrigerantByName(name);
  const { volume, heat, ambientTemperature, chargeAs, cylinderCharge, cylinderHeat } = conditions;
  if (volume === undefined) return raise({ kind: 'missing', argument: 'Volume of the system, in the conditions' });
  return {
    refrigerant,
    mass,
    as: chargeAs,
    cylinder: {
      charge: cylinderCharge,
      temperature: conditions.cylinderTemperature ?? ambientTemperature,
      heat: cylinderHeat,
      bath: conditions.bathTemperature ?? ambientTemperature,
    },
    system: { volume, heat, ambient: ambientTemperature },
  };
}
