import type { BenchRow } from './bench/common.ts';
import { benchCurve, benchPeer } from './bench/curve.ts';
import { benchProject } from './bench/project.ts';
import { benchRisk } from './bench/risk.ts';
import { benchSheet } from './bench/sheet.ts';
import { benchWet } from './bench/wet.ts';

/**
 * Prints, from one run on one machine, how long the work takes and how that compares with general peers at the same tolerance: a
 * package for ordinary differential equations (odex), scipy where Python has it (`NARROWS_PYTHON` names another one), and the same sheet as step-by-step cell
 * formulas. A short look found no general stiff solver for Node; for wet units our own general one, with slopes by differences, is
 * the second peer.
 */
const rows: BenchRow[] = [];
benchCurve(rows);
benchPeer(rows);
benchWet(rows);
benchProject(rows);
benchRisk(rows);
await benchSheet(rows);
const lines = [['what', 'measured', 'aim'], ['---', '---', '---'], ...rows].map((row) => `| ${row.join(' | ')} |`);
console.log(lines.join('\n'));
