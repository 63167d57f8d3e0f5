/**
 * Licence expressions as package files write them (SPDX specification 2.3, annex D): identifiers joined by OR and AND,
 * AND binding tighter, parentheses, `WITH` an exception, `+` for "or later".
 */
export type LicenceExpression =
  | { readonly kind: 'licence'; readonly id: string }
  | { readonly kind: 'and' | 'or'; readonly parts: readonly LicenceExpression[] };

/** Licences that let anyone use, change and pass on the work with no more than notices kept. */
export const PERMISSIVE: ReadonlySet<string> = new Set([
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'ISC',
  'MIT',
  'MIT-0',
  'Python-2.0',
  'Unlicense',
  'Zlib',
]);

/** The expression as a tree, or undefined if the text is not one. */
export function parseLicence(text: string): LicenceExpression | undefined {
  const tokens = text.match(/[()]|[^\s()]+/g) ?? [];
  let next = 0;

  function list(kind: 'or' | 'and', part: () => LicenceExpression | undefined): LicenceExpression | undefined {
    const parts: LicenceExpression[] = [];
    do {
      const found = part();
      if (found === undefined) return undefined;
      parts.push(found);
    } while (tokens[next] === kind.toUpperCase() && ++next);
    return parts.length === 1 ? parts[0] : { kind, parts };
  }
  function either(): LicenceExpression | undefined {
    return list('or', () => list('and', single));
  }
  function single(): LicenceExpression | undefined {
    const token = tokens[next++];
    if (token === undefined || /^(AND|OR|WITH|\))$/.test(token)) return undefined;
    if (token === '(') {
      const inside = either();
      return tokens[next++] === ')' ? inside : undefined;
    }
    if (!/^[A-Za-z0-9.-]+\+?$/.test(token)) return undefined;
    // An exception only ever adds permission, so the licence before it decides.
    if (tokens[next] === 'WITH') next += 2;
    return next > tokens.length ? undefined : { kind: 'licence', id: token };
  }

  const tree = either();
  return next === tokens.length ? tree : undefined;
}

/** Whether the terms can be met by permissive licences alone: one side of an OR is enough, an AND needs all. */
export function isPermissive(text: string): boolean {
  const tree = parseLicence(text);
  return tree !== undefined && holds(tree);
}

function holds(tree: LicenceExpression): boolean {
  if (tree.kind === 'licence') return PERMISSIVE.has(tree.id);
  return tree.kind === 'or' ? tree.parts.some(holds) : tree.parts.every(holds);
}
