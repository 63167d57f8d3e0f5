import { refrigerantByName } from '../../engine/refrigerant/by-name.ts';
import { raise } from '../../faults/issue.ts';
import { RUNS_COLUMNS } from '../../tables/runs.ts';
import { defineFunction } from '../define.ts';
import { conditions, runsTable, text } from '../parameters.ts';

export const chargeLines = defineFunction({
  id: 'CHARGE.LINES',
  group: 'Recovery and charging',
  summary: 'Extra charge for long lines: volume of the liquid lines times liquid density, and vapour for vapour lines.',
  parameters: {
    runs: runsTable('range with a header row: one row a length of pipe, with a Line column: liquid, vapour or none'),
    refrigerant: text('refrigerant, such as R-410A'),
    conditions: conditions('range of two or three columns: name, value, unit; of it Ambient'),
  },
  result: {
    kind: 'number',
    quantity: 'mass',
    unit: 'kg',
    description: 'mass that the lines hold beyond what is charged already',
  },
  examples: [
    {
      formula:
        '=NARROWS.CHARGE.LINES({"Size","Length (m)","Line","Charged length (m)";"3/8 in",30,"liquid",7.5;"5/8 in",30,"vapour",7.5},"R-410A")',
      shows: 'about 1.39 kg, for the 22.5 m beyond the charge of the unit',
    },
    {
      formula: '=NARROWS.CHARGE.LINES({"Size","Length (ft)","Line";"1/4 in",50,"liquid"},"R-32",{"Ambient","95 F"})',
      shows: 'about 0.26 kg',
    },
  ],
  notes: [
    'The charge and the line charge that the maker of the equipment gives come first; charge by weight, and mind the charge limit of the room for A2L and A3 refrigerants.',
    'Liquid lines count with the density of saturated liquid at Ambient, vapour lines (suction, discharge, hot gas) with that of saturated vapour at Ambient. A running liquid line is warmer than Ambient and holds a few percent less; a line that carries both holds something between.',
    'Charged length is the length of each line that the charge in the unit already covers: only what is beyond it counts. Several pieces of one line: give the Charged length in one of the rows.',
    'Rows of pipe need a word in Line; "none" leaves a row out. Components count when they have a word there, such as a liquid receiver, full of liquid.',
  ],
  sources: ['volume times density; densities as in REFRIGERANT'],
  body: ({ runs, refrigerant, conditions }) => {
    const fluid = refrigerantByName(refrigerant);
    const { ambientTemperature } = conditions;
    const liquid = fluid.liquidDensity(ambientTemperature);
    const vapour = fluid.saturatedVapourDensity(ambientTemperature);
    let mass = 0;
    for (const run of runs.runs) {
      if (run.line === undefined && !run.isComponent)
        raise({ kind: 'missing', argument: RUNS_COLUMNS.line.header }, { table: 'runs', row: run.row, column: 'Line' });
      if (run.line === undefined || run.line === 'none') continue;
      const beyond = run.isComponent ? 1 : Math.max(0, run.length - run.chargedLength) / Math.max(run.length, 1e-300);
      mass += run.volume * beyond * (run.line === 'liquid' ? liquid : vapour);
    }
    return mass;
  },
});
