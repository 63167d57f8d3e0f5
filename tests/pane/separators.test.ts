import { describe, expect, it } from 'vitest';
import { localFormula, PLAIN_SEPARATORS, separatorsOf } from '../../src/pane/separators.ts';

describe('examples as the language of the spreadsheet writes them', () => {
  it.each(['en-US', 'en-GB', 'ja-JP', 'he-IL', undefined, 'not a locale'])('stay as they are for %s', (locale) => {
    expect(separatorsOf(locale === undefined ? 'en' : locale)).toEqual(PLAIN_SEPARATORS);
  });

  // languages that write 1,5 for one and a half (Unicode CLDR)
  it.each(['de-DE', 'fr-FR', 'es-ES', 'it-IT', 'nl-NL', 'pt-BR', 'sv-SE', 'pl-PL'])(
    'part arguments by ; in %s',
    (locale) => {
      expect(localFormula('=NARROWS.EVAC.TIME(2.5,Parts,"R 1.5, small")', separatorsOf(locale))).toBe(
        '=NARROWS.EVAC.TIME(2,5;Parts;"R 1.5, small")',
      );
    },
  );

  it('part the columns of an array constant by a mark of their own, and its rows by ; as before', () => {
    const formula = '=F({"a",1.5;"b",2},3)';
    expect(localFormula(formula, separatorsOf('es-ES'))).toBe('=F({"a"\\1,5;"b"\\2};3)');
    expect(localFormula(formula, separatorsOf('de-DE'))).toBe('=F({"a".1,5;"b".2};3)');
  });

  it('leave names of functions and sheets, and doubled quotes, alone', () => {
    expect(localFormula(`=NARROWS.RUN.VOLUME('a, 1.5'!A1:B2,"say ""1,5""")`, separatorsOf('de-DE'))).toBe(
      `=NARROWS.RUN.VOLUME('a, 1.5'!A1:B2;"say ""1,5""")`,
    );
    expect(localFormula('=A(1,2.5)', PLAIN_SEPARATORS)).toBe('=A(1,2.5)');
  });
});
