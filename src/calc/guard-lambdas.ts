import type { LexerSeam } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

interface BuilderInside {
  /** brings what was read into the order of working out; false where it cannot be */
  _suffixExpressionHandler(node: unknown): boolean;
}

/**
 * The engine keeps what it has read of a formula, by its text, for all workbooks; and working out a `LET` or `LAMBDA` changes what was
 * read. The same text read again, in another workbook or after a name has changed, then had its variables as blanks. Here
 * every formula is read anew; what is worked out many times is kept further on.
 */
export function guardLambdas({ engine }: UniverModules, injector: Injector): void {
  const lexer = injector.get(engine.Lexer) as unknown as LexerSeam;
  const builder = injector.get(engine.LexerTreeBuilder) as unknown as BuilderInside;
  const read = lexer.treeBuilder.bind(lexer);
  lexer.treeBuilder = (formula, transformSuffix = true) => {
    const node = read(formula, false);
    if (!transformSuffix || typeof node === 'string') return node;
    return builder._suffixExpressionHandler(node) ? node : '#VALUE!';
  };
}
