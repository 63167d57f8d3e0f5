import type { Passage } from '../../engine/flow/passage.ts';
import { preparePassage } from '../../engine/flow/prepare.ts';
import { DEFAULT_CRITICAL_RATIO } from '../../engine/flow/sonic.ts';
import { checkReading, limitToSI } from '../../units/limit.ts';
import { readQuantity } from '../../units/quantity.ts';
import { defineFunction } from '../define.ts';
import { choice, conditions, number, optional, quantity, text } from '../parameters.ts';
import { checkOrder, INLET_LIMIT, ONE_TEMPERATURE, OUTLET_LIMIT, THROUGHPUT_RESULT } from './limits.ts';

const KINDS = ['Kv', 'Cv', 'C'] as const;

/** The widest valves have Kv of some 10 000; the limit of C is the same flow. */
const FLOW_COEFFICIENT_LIMIT = limitToSI({ above: 0, atLeast: 1e-9, atMost: 1e5 }, 'Kv', 'flow coefficient');
const SONIC_LIMIT = limitToSI({ above: 0, atLeast: 1e-18, atMost: 1e-2 }, 'm3/(s Pa)', 'sonic conductance');

function passageOf(coefficient: string, kind: (typeof KINDS)[number], criticalRatio: number): Passage {
  if (kind === 'C') {
    const reading = readQuantity(coefficient, 'sonic conductance', 'm3/(s Pa)', 'coefficient');
    checkReading(reading, SONIC_LIMIT, 'sonic conductance', 'coefficient');
    return { kind: 'sonic', sonicConductance: reading.si, criticalRatio };
  }
  const reading = readQuantity(coefficient, 'flow coefficient', kind, 'coefficient');
  checkReading(reading, FLOW_COEFFICIENT_LIMIT, 'flow coefficient', 'coefficient');
  return { kind: 'valve', kv: reading.si, pressureDropRatio: 1 - criticalRatio };
}

export const valveFlow = defineFunction({
  id: 'VALVE.FLOW',
  group: 'Passages',
  summary: 'Throughput of a valve between two pressures, by its Kv, Cv or sonic conductance.',
  parameters: {
    inlet: quantity('pressure', 'Pa', 'absolute pressure where the gas enters (system side)', INLET_LIMIT),
    outlet: quantity('pressure', 'Pa', 'absolute pressure where the gas leaves (pump side)', OUTLET_LIMIT),
    coefficient: text(
      'Kv or Cv as a number; C in m3/(s Pa) or as text with a unit such as 4 dm3/(s bar)',
      'a number, or text with a unit',
    ),
    kind: choice(KINDS, 'what the coefficient is'),
    criticalRatio: optional(
      number('outlet over inlet pressure at which air chokes, default 0.3; with Kv and Cv it is 1 - xT', {
        atLeast: 0,
        atMost: 0.95,
      }),
      DEFAULT_CRITICAL_RATIO,
    ),
    conditions: conditions(),
  },
  result: THROUGHPUT_RESULT,
  examples: [
    { formula: '=NARROWS.VALVE.FLOW(101325,50000,0.6,"Cv")', shows: 'a ball valve of Cv 0.6 from ambient pressure' },
    {
      formula: '=NARROWS.VALVE.FLOW("2 bar",101325,"4 dm3/(s bar)","C",0.35)',
      shows: 'a quick coupler by its sonic conductance',
    },
  ],
  notes: [
    ONE_TEMPERATURE,
    'No fittings beside the valve. In rarefied gas an estimate, by the area of an opening that chokes at the same flow.',
  ],
  sources: ['IEC 60534-2-1: Kv and Cv', 'ISO 6358-1:2013: sonic conductance and critical ratio'],
  body: ({ inlet, outlet, coefficient, kind, criticalRatio, conditions }) => {
    checkOrder(inlet, outlet);
    const passage = passageOf(coefficient, kind, criticalRatio);
    return preparePassage(passage, conditions.gas).throughput(inlet, outlet);
  },
});
