import type { Injector, UniverModules } from './univer.ts';

interface NamesInFormula {
  readonly definedNames: readonly string[];
}

type ValueByName = (unitId: string, name: string) => { readonly name: string } | null | undefined;

interface BuilderInside {
  _handleDefinedName(sequence: unknown, names: { readonly getValueByName: ValueByName }): NamesInFormula;
}

/**
 * A formula follows the defined names in it. The engine keeps what it has read of a formula, and reads it anew when a name in
 * it was changed; but it only noted those names that lead to nothing. After a row was put into a named range, sums over the
 * name left the new last row out, and so did the same formula typed anew. Here all names are noted, those inside names too.
 */
export function guardNames({ engine }: UniverModules, injector: Injector): void {
  const builder = injector.get(engine.LexerTreeBuilder) as unknown as BuilderInside;
  const handle = builder._handleDefinedName.bind(builder);
  builder._handleDefinedName = (sequence, names) => {
    const found = new Set<string>();
    const getValueByName: ValueByName = (unitId, name) => {
      const content = names.getValueByName(unitId, name);
      // as it is written here, and as it was defined: capitals may differ
      if (content) found.add(name).add(content.name);
      return content;
    };
    const read = handle(sequence, { ...names, getValueByName });
    return { ...read, definedNames: [...new Set([...read.definedNames, ...found])] };
  };
}
