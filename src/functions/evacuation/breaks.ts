import type { Contents } from '../../engine/breaks/contents.ts';
import { totalPressure } from '../../engine/breaks/contents.ts';
import { type BrokenSystem, type Gear, type PlanEvent, type PlanStep, runPlan } from '../../engine/breaks/plan.ts';
import { MOLAR_GAS_CONSTANT } from '../../engine/gas/constants.ts';
import { gasState } from '../../engine/gas/gas.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import { issueWords } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { PlanTable } from '../../tables/plan.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { DRY_OUT_SOURCES } from '../dry-out/notes.ts';
import { conditions, partsTable, planTable, quantity, text } from '../parameters.ts';
import { pressureColumn, shareColumn, textColumn, timeColumn } from '../rig/columns.ts';
import { loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { gearOf } from './break-gear.ts';
import { orFault } from './project-plans.ts';

const columns = [
  textColumn('Step'),
  textColumn('What'),
  pressureColumn('Pressure'),
  timeColumn('Time'),
  timeColumn('Time so far'),
  shareColumn('Air left'),
  { name: 'Air mass left', quantity: 'mass', metricUnit: 'mg', inchUnit: 'mg' },
  { name: 'Water left', quantity: 'mass', metricUnit: 'g', inchUnit: 'oz' },
  { name: 'Water temperature', quantity: 'temperature', metricUnit: 'C', inchUnit: 'F' },
  textColumn('Water state'),
  textColumn('Note'),
] as const satisfies readonly SpillColumn[];

/** The plan's rows as the engine takes them; a blank Pull to of the last is the target. */
function stepsOf({ steps }: PlanTable, { target }: Conditions, temperature: number): readonly PlanStep[] {
  return steps.map(({ pullTo, longestPull, fill, row }) => {
    const place = { table: 'plan', row };
    return {
      pullTo: pullTo ?? target,
      ...(longestPull === undefined ? {} : { longestPull }),
      ...(fill === undefined ? {} : { fill: { ...fill, gas: gasState(fill.gas, temperature) } }),
      pullPlace: { ...place, column: 'Pull to' },
      breakPlace: { ...place, column: 'Break to' },
    };
  });
}

const KELVIN_ZERO = 273.15;
const celsius = (kelvin: number): string => `${Number((kelvin - KELVIN_ZERO).toFixed(1))} C`;

/** What a technician should know of one pull, break or wait. */
function noteOf({ what, end, reached, seen }: PlanEvent, last: boolean, rig: Rig, gas = ''): string {
  const notes: string[] = [];
  const { waterLimit } = rig.pump;
  if (what === 'pull') {
    if (!reached) notes.push('ended by Longest pull, its pressure not reached');
    else if (end.water > 0) notes.push('water is left: the gauge is there, the system is not dry');
    if (seen.froze) notes.push('freezes');
    if (seen.coldest !== undefined && seen.coldest < end.temperature - 0.1)
      notes.push(`water down to ${celsius(seen.coldest)}`);
    if (waterLimit !== undefined && seen.vapourAtPump > waterLimit)
      notes.push('vapour at the pump above its water limit');
  } else if (what === 'break') notes.push(`${gas} let in`);
  else if (seen.froze && end.ice === 0) notes.push('the ice has thawed');
  else if (end.ice > 0) notes.push('ice is left');
  else if (end.water > 0) notes.push('water warms up');
  if (last && what !== 'pull') notes.push('the plan ends under gas');
  return notes.join('; ');
}

interface Shown {
  readonly step: Cell;
  readonly what: string;
  readonly seconds: number;
  readonly end: Contents;
  readonly note: string;
}

export const evacBreaks = defineFunction({
  id: 'EVAC.BREAKS',
  group: 'Evacuation',
  summary:
    'An evacuation by a plan of pulls and nitrogen breaks: time, air and water left after each, against one deep pull.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    plan: planTable(),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description: 'one row a pull, a break and a wait; then the whole plan, one deep pull, and the time saved or lost',
  },
  examples: [
    {
      formula: `=NARROWS.EVAC.BREAKS(20,${EXAMPLE_PARTS},"wide",{"Pull to (micron)","Break to","Supply";4000,"0.2 bar g","2 bar g";1500,"0.2 bar g","2 bar g";500,"",""})`,
      shows: 'two breaks with nitrogen on the way to 500 micron, in a dry system of 20 L',
    },
    {
      formula: `=NARROWS.EVAC.BREAKS(20,${EXAMPLE_PARTS},"wide",{"Pull to (micron)","Break to","Wait (min)","Longest pull (min)","Heat under gas (W/K)";1000,"0.2 bar g",30,20,2;"","","","",""},{"Water","20 g";"Heat","0.2 W/K"})`,
      shows:
        '20 g of water that freezes: the pull is ended after 20 minutes, and nitrogen stands for half an hour and brings more heat to the ice',
    },
  ],
  notes: [
    'One row of the plan is one pull and the break after it. A blank Break to in the last row ends the plan there, a blank Pull to there is Target pressure of the conditions; so does a blank row below the last break. Without one a plan may end with a break, under gas. Gas is nitrogen where blank; Supply, the pressure behind the regulator, is 1 bar above Break to where blank. Gauge units count from 101325 Pa.',
    'A pull ends when the pressure is at Pull to, even while water is left, or after Longest pull. The last pull of a plan that ends without a break goes on until no water is left and the pressure is there, as DRY.TIME does.',
    'A break lets gas in from Supply through the parts of the rig, the other way: the same bores, choked where they choke. It ends when the whole pressure, vapour included, is at Break to.',
    'Air is the gas of the conditions that was there at the start, with what Leak and Outgassing bring in during pulls; Air left is its part of what there was. It is well mixed with the break gas: without water each pull and break leaves the part p(pull)/p(break). Mixing in long dead ends takes longer.',
    'Water and Heat are those of the conditions. While water is left it evaporates in equilibrium and cools. In a break and a wait, Heat warms it, ice first; the gas that comes in is at Ambient and has no heat of its own to give. Gas carries heat to water that vacuum leaves alone: Heat under gas of the plan may be larger than Heat.',
    'One deep pull is the same system pumped to the Pull to of the last row at once. In a dry system breaks only take time: they dilute the air. With water too, as long as Heat is the same with gas as without: cold water draws more heat from outside than water that has warmed up in a wait. Where gas brings more heat to the water, say so in Heat under gas; the last row says whether the break then pays.',
    'Leak and Outgassing count during pulls alone: in a break the system stands near or above the pressure outside. Temperature of the conditions is not used.',
    'Nitrogen from a cylinder only through a regulator, with a relief device in the line set below the lowest pressure rating of what is connected; never oxygen or shop air. Let it out where there is fresh air: it displaces what people breathe without any warning. Take the vacuum gauge and the pump off before gas goes in, unless they are rated for it. Local codes and the maker’s instructions come first.',
  ],
  sources: [
    'Dilution by repeated filling and pumping: (p_vacuum/p_break)^n, ideal mixing; derived here.',
    'Flow through the rig both ways: the same equations as RIG.SPEED.',
    ...DRY_OUT_SOURCES,
  ],
  body: ({ volume, parts, rig: rigName, plan, conditions }) => {
    const rig = parts.rig(rigName);
    const gear = gearOf(rig, conditions);
    const { water, heat, metal, startPressure: start } = conditions;
    const system: BrokenSystem = { volume, water, heat, metal, start, load: loadOf(conditions) };
    const steps = stepsOf(plan, conditions, gear.gas.temperature);
    const { events, start: begun } = runPlan(gear, system, steps);

    const milligrams = (volume * gear.gas.molarMass) / (MOLAR_GAS_CONSTANT * gear.gas.temperature);
    let soFar = 0;
    const row = ({ step, what, seconds, end, note }: Shown, total: Cell): Cell[] => [
      step,
      what,
      totalPressure(end),
      seconds,
      total,
      end.first / begun.first,
      end.first * milligrams,
      end.water,
      end.state === 'dry' ? '' : end.temperature,
      end.state,
      note,
    ];
    const rows = events.map((event, i) => {
      soFar += event.seconds;
      const { step, what, seconds, end } = event;
      const gas = plan.steps[step]?.fill?.gas ?? '';
      const note = noteOf(event, i === events.length - 1, rig, gas);
      return row({ step: step + 1, what, seconds, end, note }, soFar);
    });
    const last = events.at(-1);
    if (last === undefined) return { columns, rows };
    const whole = row({ step: '', what: 'whole plan', seconds: soFar, end: last.end, note: '' }, '');
    return { columns, rows: [...rows, whole, ...comparison(gear, system, steps, soFar, rig, row)] };
  },
});

function comparison(
  gear: Gear,
  system: BrokenSystem,
  steps: readonly PlanStep[],
  seconds: number,
  rig: Rig,
  row: (shown: Shown, total: Cell) => Cell[],
): Cell[][] {
  const pullTo = steps.at(-1)?.pullTo ?? system.start;
  const one = orFault(() => runPlan(gear, system, [{ pullTo }]).events[0]);
  const what = 'one deep pull';
  if (one instanceof Fault || one === undefined) {
    const why = one === undefined ? '' : issueWords(one.issue);
    const empty = Array<Cell>(columns.length - 5).fill('');
    return [['', what, pullTo, noAnswer(why), ...empty, why]];
  }
  const saved = one.seconds - seconds;
  const difference = Array<Cell>(columns.length).fill('');
  difference[1] = saved >= 0 ? 'saved by the breaks' : 'lost by the breaks';
  difference[3] = Math.abs(saved);
  return [row({ step: '', what, seconds: one.seconds, end: one.end, note: noteOf(one, true, rig) }, ''), difference];
}
