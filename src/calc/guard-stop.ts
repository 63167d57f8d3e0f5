import type { IFormulaDatasetConfig } from '@univerjs/engine-formula';
import type { CalculateSeam, RuntimeSeam } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

/**
 * A calculation lets go of the page after this long, and then again and again, so that keys, the pointer and the Stop button
 * are heard. Most are over before the first rest: each rest lets the page draw, which may take longer than the calculation.
 */
const FIRST_REST_AFTER_MS = 300;
const REST_AFTER_MS = 40;

/** What the calculation is doing, for whoever shows it. */
export interface Progress {
  readonly running: boolean;
  /** formulas worked out so far, and those to be worked out; a pass that settles spilled ranges adds to both */
  readonly done: number;
  readonly total: number;
  /** true while results on the sheet are older than what they rest on, because a calculation was stopped */
  readonly owing: boolean;
}

export interface Pace {
  progress(): Progress;
  /** Calls `listener` whenever the progress changes. Returns how to stop. */
  onProgress(listener: (progress: Progress) => void): () => void;
  /** Stops before the next formula. What was changed is still owed and is worked out with the next calculation. */
  stop(): void;
  /** Works out what is owed. */
  resume(): void;
}

interface CalculateInside extends CalculateSeam {
  execute(config: IFormulaDatasetConfig): Promise<void>;
}

interface RuntimeInside extends RuntimeSeam {
  stopExecution(): void;
  isStopExecution(): boolean;
}

type Changes = Required<
  Pick<
    IFormulaDatasetConfig,
    | 'forceCalculate'
    | 'dirtyRanges'
    | 'dirtyNameMap'
    | 'dirtyDefinedNameMap'
    | 'dirtySuperTableMap'
    | 'dirtyUnitFeatureMap'
    | 'dirtyUnitOtherFormulaMap'
    | 'clearDependencyTreeCache'
  >
>;

/**
 * Makes long calculations bearable: they rest often, can be stopped between two formulas, and never run side by side.
 * The engine forgets what a stopped calculation was for; here it stays owed until a calculation has come to its end, so
 * that no cell keeps an old value unnoticed.
 */
export function guardStop({ core, engine }: UniverModules, injector: Injector): Pace {
  const calculate = injector.get(engine.ICalculateFormulaService) as unknown as CalculateInside;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeInside;
  const model = injector.get(engine.FormulaDataModel);
  const config = injector
    .get(core.IConfigService)
    .getConfig<{ intervalCount?: unknown }>(engine.ENGINE_FORMULA_PLUGIN_CONFIG_KEY);
  const listeners = new Set<(progress: Progress) => void>();
  let owed: Changes | undefined;
  let latest: IFormulaDatasetConfig | undefined;
  let waiting = false;
  let running = false;
  /** between a calculation that was overtaken and the one that follows */
  let restarting = false;
  let stepOver = false;
  let stopped = false;
  let total = 0;
  let done = 0;
  let restAt = 0;

  // The engine rests before a formula whose number is a multiple of this; asked before each of them. None is of NaN.
  const interval = { valueOf: () => (performance.now() > restAt ? 1 : Number.NaN) };
  if (config) config.intervalCount = interval;

  const progress = (): Progress => {
    const busy = running || restarting;
    return { running: busy, done, total, owing: !busy && owed !== undefined };
  };
  const tell = () => {
    for (const listener of listeners) listener(progress());
  };

  const execute = calculate.execute.bind(calculate);
  calculate.execute = async (given) => {
    owed = merged(owed, given);
    latest = given;
    if (running) {
      // the one that runs is for something older: it ends before its next formula, and this one follows
      waiting = true;
      runtime.stopExecution();
      return;
    }
    begin();
    await execute({ ...given, ...owed });
  };

  function begin(): void {
    running = true;
    restarting = false;
    stepOver = false;
    stopped = false;
    done = 0;
    total = 0;
    restAt = performance.now() + FIRST_REST_AFTER_MS;
    tell();
  }

  const step = calculate._executeStep.bind(calculate);
  calculate._executeStep = async () => {
    const ended = await step();
    stepOver = true;
    stopped = ended === undefined;
    return ended;
  };

  injector.get(engine.ICalculateFormulaService).executionInProgressListener$.subscribe((state) => {
    restAt = Math.max(restAt, performance.now() + REST_AFTER_MS);
    done = state.completedFormulasCount + state.completedArrayFormulasCount;
    total = state.totalFormulasToCalculate + state.totalArrayFormulasToCalculate;
    if (running) tell();
  });
  injector.get(engine.ICalculateFormulaService).executionCompleteListener$.subscribe(() => {
    // A stopped calculation tells of its end twice; only the second time is it over.
    if (!running || !stepOver) return;
    running = false;
    if (!stopped) owed = undefined;
    restarting = waiting;
    waiting = false;
    tell();
    // The engine clears its tables after the listeners.
    if (restarting)
      setTimeout(() => {
        // a stop in between holds
        if (restarting) resume();
      });
  });

  function resume(): void {
    restarting = false;
    if (running || owed === undefined || latest === undefined) return;
    begin();
    void execute({
      ...latest,
      ...owed,
      formulaData: model.getFormulaData(),
      arrayFormulaCellData: model.getArrayFormulaCellData(),
      arrayFormulaRange: model.getArrayFormulaRange(),
    });
  }

  return {
    progress,
    onProgress(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    stop() {
      waiting = false;
      restarting = false;
      if (running) runtime.stopExecution();
      else tell();
    },
    resume,
  };
}

function merged(before: Changes | undefined, { ...now }: IFormulaDatasetConfig): Changes {
  const next: Changes = {
    forceCalculate: now.forceCalculate,
    dirtyRanges: now.dirtyRanges,
    dirtyNameMap: now.dirtyNameMap,
    dirtyDefinedNameMap: now.dirtyDefinedNameMap,
    dirtyUnitFeatureMap: now.dirtyUnitFeatureMap,
    dirtyUnitOtherFormulaMap: now.dirtyUnitOtherFormulaMap,
    clearDependencyTreeCache: now.clearDependencyTreeCache ?? {},
    dirtySuperTableMap: now.dirtySuperTableMap ?? {},
  };
  if (before === undefined) return next;
  return {
    forceCalculate: before.forceCalculate || next.forceCalculate,
    dirtyRanges: [...before.dirtyRanges, ...next.dirtyRanges],
    dirtyNameMap: joined(before.dirtyNameMap, next.dirtyNameMap),
    dirtyDefinedNameMap: joined(before.dirtyDefinedNameMap, next.dirtyDefinedNameMap),
    dirtyUnitFeatureMap: joined(before.dirtyUnitFeatureMap, next.dirtyUnitFeatureMap),
    dirtyUnitOtherFormulaMap: joined(before.dirtyUnitOtherFormulaMap, next.dirtyUnitOtherFormulaMap),
    clearDependencyTreeCache: joined(before.clearDependencyTreeCache, next.clearDependencyTreeCache),
    dirtySuperTableMap: joined(before.dirtySuperTableMap, next.dirtySuperTableMap),
  };
}

/** Two records of records as one, however deep they go. */
function joined<T extends object>(a: T, b: T): T {
  const out = { ...a } as Record<string, unknown>;
  for (const [key, value] of Object.entries(b)) {
    const held = out[key];
    out[key] = isRecord(held) && isRecord(value) ? joined(held, value) : value;
  }
  return out as T;
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;
