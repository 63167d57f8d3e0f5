import { type ChargeResult, charge } from '../../engine/transfer/charge.ts';
import { raise } from '../../faults/issue.ts';
import { shortNumber } from '../../faults/words.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { CHARGING_NOTES, CHARGING_SOURCES } from './notes.ts';
import { chargingOf } from './set-up.ts';

const SECONDS_PER_MINUTE = 60;
const PASCALS_PER_BAR = 1e5;
const THREE = 3;

const rounded = (value: number): string => shortNumber(Number(value.toPrecision(THREE)));

export const chargeTime = defineFunction({
  id: 'CHARGE.TIME',
  group: 'Recovery and charging',
  summary: 'Minutes to charge an evacuated system from a cylinder through a rig, as liquid or as vapour.',
  parameters: {
    refrigerant: text('refrigerant, such as R-410A'),
    mass: quantity('mass', 'kg', 'refrigerant to be charged', { above: 0 }),
    parts: partsTable('range with a header row: one row a part, from the cylinder to the system'),
    rig: text('name of a rig of the parts table'),
    conditions: conditions('range of names, values and units; Volume is needed'),
  },
  result: { kind: 'number', quantity: 'time', unit: 'min', description: 'time until the whole mass is in' },
  examples: [
    {
      formula: `=NARROWS.CHARGE.TIME("R-410A",3,${EXAMPLE_PARTS},"small",{"Volume","8 L"})`,
      shows: '3 kg of liquid through a small hose on a fitted core',
    },
    {
      formula: `=NARROWS.CHARGE.TIME("R-410A",3,${EXAMPLE_PARTS},"wide",{"Volume","8 L"})`,
      shows: 'the same through a wide hose with the core taken out',
    },
  ],
  notes: [
    ...CHARGING_NOTES,
    'A charge that stops short is #N/A; WHY says how much went in and what helps, and CHARGE.CURVE shows the way there.',
  ],
  sources: CHARGING_SOURCES,
  body: ({ refrigerant, mass, parts, rig, conditions }) => {
    const result = charge(chargingOf(refrigerant, mass, conditions), parts.rig(rig));
    return result.end === 'done' ? result.time : raiseShort(result, mass);
  },
});

const CAUSE = {
  met: 'the pressures of cylinder and system have met',
  dry: 'the cylinder has no liquid left',
  cold: 'the cylinder is too cold to go on',
} as const;

const REMEDY = {
  met: 'Warm the cylinder (Cylinder heat and Bath temperature in the conditions) or cool the system; what is left can be drawn in by the running compressor, which is not covered here.',
  dry: 'Charge the rest from another cylinder, or give a larger Cylinder charge in the conditions.',
  cold: 'Warm the cylinder: Cylinder heat and Bath temperature in the conditions.',
} as const;

function raiseShort({ end, charged, time, last }: ChargeResult, mass: number): never {
  const cause = end === 'done' ? 'met' : end;
  const pressure = `${rounded(last.cylinder.pressure / PASCALS_PER_BAR)} bar`;
  return raise({
    kind: 'no-solution',
    reason: `only ${rounded(charged)} kg of the ${shortNumber(mass)} kg go in: after ${rounded(time / SECONDS_PER_MINUTE)} min ${CAUSE[cause]}, at ${pressure}`,
    todo: REMEDY[cause],
  });
}
