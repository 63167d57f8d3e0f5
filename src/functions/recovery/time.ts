import { refrigerantByName } from '../../engine/refrigerant/by-name.ts';
import { recover } from '../../engine/transfer/recovery.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { gearOf, taskOf } from './gear.ts';
import { EXAMPLE_MACHINES, RECOVERY_NOTES, RECOVERY_SOURCES } from './notes.ts';

export const recoverTime = defineFunction({
  id: 'RECOVER.TIME',
  group: 'Recovery and charging',
  summary: 'Minutes to recover a refrigerant from a system to a level, as vapour, liquid or by push-pull.',
  parameters: {
    refrigerant: text('refrigerant such as R-410A'),
    charge: quantity('mass', 'kg', 'refrigerant in the system', { above: 0 }),
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable('range with a header row: one row a part, from the recovery machine to the system'),
    rig: text('name of a rig of the parts table'),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'time', unit: 'min', description: 'time to the level, with all liquid gone' },
  examples: [
    {
      formula: `=NARROWS.RECOVER.TIME("R-410A",5,20,${EXAMPLE_MACHINES},"small",{"Heat","20 W/K"})`,
      shows: '5 kg as vapour through a small hose on a fitted core',
    },
    {
      formula: `=NARROWS.RECOVER.TIME("R-410A",5,20,${EXAMPLE_MACHINES},"wide",{"Recover as","liquid";"Recover to","10 inHg vac"})`,
      shows: 'liquid first, through a wide hose, and then vapour to 10 inHg of vacuum',
    },
  ],
  notes: [...RECOVERY_NOTES],
  sources: RECOVERY_SOURCES,
  body: ({ refrigerant, charge, volume, parts, rig, conditions }) => {
    const gear = gearOf(refrigerantByName(refrigerant), parts.rig(rig), conditions.ambientTemperature);
    return recover(gear, taskOf(charge, volume, conditions)).time;
  },
});
