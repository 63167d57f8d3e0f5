import { callFunction } from '../adapter.ts';
import { type CellFunction, defineFunction } from '../define.ts';
import { anyRange, optional, repeating, text } from '../parameters.ts';
import type { Registry } from '../registry.ts';

/** `registry` is asked when the function is called, since the function is itself a part of it. */
export function whyFunction(registry: () => Registry): CellFunction {
  return defineFunction({
    id: 'WHY',
    group: 'Words',
    summary: 'Says in words why a function gives an error: its name first, then the arguments that it was given.',
    parameters: {
      function: text('name of the function, such as TUBE.BORE'),
      arguments: optional(repeating(anyRange('the arguments of the function, in its own order'))),
    },
    result: { kind: 'text', description: 'the fault in words, or "no fault found"' },
    examples: [
      { formula: '=NARROWS.WHY("TUBE.BORE","3/7 in")', shows: 'that there is no such tube size, and which there are' },
      { formula: '=NARROWS.WHY("CONVERT",500,"micron","Pa")', shows: 'no fault found' },
    ],
    notes: ['An argument that is left out is left empty here as well.'],
    body: ({ function: name, arguments: given }) => {
      const outcome = callFunction(registry().get(name), given ?? []);
      const fault = outcome.ok ? outcome.firstFault : outcome;
      return fault?.message ?? 'no fault found';
    },
  });
}
