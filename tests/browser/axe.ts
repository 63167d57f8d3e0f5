import type { Page } from 'playwright-core';
import { axeScript } from '../../tools/axe.ts';

interface Finding {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

type WithAxe = Window & {
  readonly axe?: {
    run(
      context: unknown,
      options: unknown,
    ): Promise<{ readonly violations: readonly Finding[]; readonly passes: unknown[] }>;
  };
};

/** What to look at, by selectors; all of the page without `include`. */
export interface AxeScope {
  readonly include?: readonly string[];
  readonly exclude?: readonly string[];
}

/** Runs axe-core with all its rules in the page; each violation as a line of text. */
export async function violations(page: Page, scope: AxeScope = {}): Promise<readonly string[]> {
  const script = await axeScript();
  const has = await page.evaluate(() => (window as unknown as WithAxe).axe !== undefined);
  // As the browser's own script: the page's content policy lets none in from outside.
  if (!has) await page.evaluate(script);
  const found = await page.evaluate(async ({ include, exclude }) => {
    const { axe } = window as unknown as WithAxe;
    if (axe === undefined) throw new Error('axe-core did not start');
    const context = {
      ...(include === undefined ? {} : { include: include.map((selector) => [selector]) }),
      ...(exclude === undefined ? {} : { exclude: exclude.map((selector) => [selector]) }),
    };
    const result = await axe.run(Object.keys(context).length > 0 ? context : document, { resultTypes: ['violations'] });
    if (result.passes.length === 0) throw new Error('axe-core looked at nothing');
    return result.violations;
  }, scope);
  return found.map(
    ({ id, help, nodes }) => `${id}: ${help} (${nodes.map(({ target }) => target.join(' ')).join('; ')})`,
  );
}
