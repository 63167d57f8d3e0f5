import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { loadUniver, UTILITIES } from '../../src/calc/univer-node.ts';

/** The guards lean on parts of the formula engine that its types keep private. A new version of it has to be looked at. */
const require = createRequire(import.meta.url);

test('the formula engine is the version that the guards were made for', () => {
  for (const name of ['core', 'engine-formula', 'sheets', 'sheets-formula']) {
    const path = join(dirname(require.resolve(`@univerjs/${name}`)), '../../package.json');
    expect(JSON.parse(readFileSync(path, 'utf8')), name).toMatchObject({ version: '0.25.1' });
  }
});

test('the parts of the formula engine that the guards take hold of are there', () => {
  const { core, engine } = loadUniver();
  const univer = new core.Univer({ locale: core.LocaleType.EN_US, logLevel: core.LogLevel.SILENT });
  univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
  univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, {});
  const injector = univer.__getInjector();
  const held: [object, readonly string[]][] = [
    [injector.get(engine.Lexer), ['treeBuilder']],
    [injector.get(engine.LexerTreeBuilder), ['_suffixExpressionHandler', '_formulaSpellCheck', '_currentLexerNode']],
    [engine.ValueNodeFactory.prototype, ['create']],
    [engine.ArrayValueObject.prototype, ['_formatValue', 'orderSearch', 'binarySearch', '_batchOperator']],
    [engine.BooleanValueObject.prototype, ['_compareString', 'compare']],
    [engine.StringValueObject.prototype, ['convertToNumberObjectValue']],
    [engine.NumberValueObject.prototype, ['mod', 'pow', 'round', 'floor', 'ceil', 'atan2', 'abs', 'log10', 'asinh']],
    [injector.get(engine.IFunctionService).getExecutor('YEAR' as never) ?? {}, ['_handleSingleObject']],
    [injector.get(engine.AstTreeBuilder), ['parse']],
    [injector.get(engine.Interpreter), ['execute', 'executeAsync', 'checkAsyncNode', '_execute']],
    [
      injector.get(engine.IFormulaRuntimeService),
      [
        'setRuntimeData',
        'getUnitData',
        'getUnitArrayFormula',
        'getRuntimeArrayFormulaCellData',
        'setCurrent',
        'reset',
        '_isInOtherArrayFormulaRange',
        '_checkIfArrayFormulaRangeHasData',
        '_checkIfArrayFormulaExceeded',
      ],
    ],
    [
      injector.get(engine.IFormulaCurrentConfigService),
      [
        'getFormulaData',
        'getArrayFormulaRange',
        'getArrayFormulaCellData',
        'loadDirtyRangesAndExcludedCell',
        'loadDataLite',
        '_forceCalculate',
      ],
    ],
    [
      injector.get(engine.IFormulaDependencyGenerator),
      [
        '_dependencyManagerService',
        '_dependencyRTreeCacheForAddressFunction',
        '_checkIsCycleDependency',
        '_createFDtree',
        '_createVirtualFDtree',
        '_nodeTraversalRef',
        '_executeNode',
      ],
    ],
    [injector.get(engine.FormulaDataModel), ['getHiddenRowsFiltered']],
    [injector.get(engine.ICalculateFormulaService), ['_apply', '_executeStep', 'executionCompleteListener$']],
    [engine.CELL_INVERTED_INDEX_CACHE, ['set', 'clear', 'getCellPositions', 'shouldContinueBuildingCache', '_cache']],
    [
      engine.BaseReferenceObject.prototype,
      ['getCellData', 'getRuntimeFeatureCellValue', 'iterator', 'toArrayValueObject'],
    ],
  ];
  for (const [object, names] of held) for (const name of names) expect(name in object, name).toBe(true);
  univer.dispose();
});

test('the packages use no utility that is not put in place for them', () => {
  const names = new Set<string>();
  for (const name of ['core', 'engine-formula', 'sheets', 'sheets-formula', 'rpc', 'themes', 'protocol', 'network']) {
    for (const [, used] of readFileSync(require.resolve(`@univerjs/${name}`), 'utf8').matchAll(/lodash_es\.(\w+)/g))
      names.add(used ?? '');
  }
  expect([...names].sort()).toEqual([...UTILITIES]);
});
