import { parseArgs } from 'node:util';
import { runFuzz } from '../tests/functions/fuzz/run.ts';

/**
 * A million calls of all functions with what hosts might hand over. `--seed N` repeats a run, `--calls N` its length,
 * `--from N --calls 1` a single call of it, `--function ID` gives all turns to one function.
 */
const { values } = parseArgs({
  options: {
    seed: { type: 'string' },
    calls: { type: 'string', default: '1000000' },
    from: { type: 'string', default: '0' },
    function: { type: 'string' },
  },
});
const seed = Number(values.seed ?? Math.floor(Math.random() * 2 ** 31));
const calls = Number(values.calls);
console.log(`seed ${seed}, ${calls} calls from call ${values.from}`);
const begun = process.cpuUsage();
const report = runFuzz(seed, calls, {
  from: Number(values.from),
  ...(values.function === undefined ? {} : { id: values.function }),
  onProgress: (done) => {
    if (done % 50_000 === 0) console.log(`${done} calls`);
  },
});
const { user, system } = process.cpuUsage(begun);
const rows = [...report.byFunction].map(([id, one]) => ({
  function: id,
  calls: one.calls,
  answers: `${Math.round((100 * one.answers) / one.calls)} %`,
  'ms a call': Number((one.cost / one.calls).toFixed(2)),
  'slowest ms': Math.round(one.slowest),
}));
console.table(rows.sort((a, b) => b['ms a call'] - a['ms a call']));
console.log(
  `${report.calls} calls, ${report.answers} answers, ${((user + system) / 1e6).toFixed(0)} s of CPU, seed ${seed}`,
);
for (const { call, id, wrong, told } of report.failures) {
  console.error(`call ${call} of seed ${seed}: ${id} gave ${wrong}\n  with ${told}`);
}
if (report.failures.length > 0) process.exitCode = 1;
