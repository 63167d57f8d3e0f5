import { afterEach, expect, test } from 'vitest';
import { book, disposeAll, newCalculator } from './fixture.ts';

afterEach(disposeAll);

test('wildcards that fit nowhere are given up soon', async () => {
  const { calculator } = await book({ S: {} });
  const [answer] = calculator.evaluate(['=SEARCH("*a*a*a*a*a*a*a*a*a*a*z",REPT("a",30000))']);
  expect(answer).toMatchObject({ error: '#VALUE!' });
}, 5_000);

/** Each would run for minutes to years, or fill the memory. */
test.each([
  '=BINOM.DIST(5E8,1E9,0.5,TRUE)',
  '=BINOM.INV(1E9,0.5,0.5)',
  '=POISSON.DIST(1E9,1E9,TRUE)',
  '=NEGBINOM.DIST(1E9,1E9,0.5,TRUE)',
  '=HYPGEOM.DIST(1E8,2E8,3E8,1E9,TRUE)',
  '=WORKDAY(1,1E9)',
  '=VDB(1E9,1,1E9,0,1E9)',
  '=CUMPRINC(0.01,1E9,1000,1,1E9,0)',
  '=BESSELY(5E8,1E9)',
  '=SUM(MUNIT(20000))',
  '=SUM(MMULT(SEQUENCE(1000,1000),SEQUENCE(1000,1000)))',
  '=MDETERM(SEQUENCE(900,900))',
  '=SUM(MATCH(SEQUENCE(30000),SEQUENCE(30000,1,30000,-1),0))',
  '=SUM(XLOOKUP(SEQUENCE(30000),SEQUENCE(30000),SEQUENCE(30000)))',
  '=SUM(FREQUENCY(SEQUENCE(30000),SEQUENCE(30000)))',
  '=SUM(SEQUENCE(3000)*SEQUENCE(1,3000))',
  '=SUM(A1:XFD1048576)',
  '=SUM(MAKEARRAY(2000,1000,LAMBDA(r,c,r)))',
  '=REDUCE(0,SEQUENCE(2000),LAMBDA(a,b,a+REDUCE(0,SEQUENCE(2000),LAMBDA(c,d,c+d))))',
  '=LEN(REPT("x",1E9))',
  '=LEN(TEXTJOIN(",",SEQUENCE(60,60),SEQUENCE(100,100)))',
  '=SUM(NPV(SEQUENCE(3000),SEQUENCE(5000),SEQUENCE(5000)))',
  '=POISSON.DIST({3,1E16},2,TRUE)',
  '=GAMMA.DIST(1E16,1E16,0.5,TRUE)',
  '=GAMMA.INV(0.5,1E12,1)',
  '=CHISQ.DIST(9E9,9E9,TRUE)',
  '=CHISQ.INV(0.3,9E9)',
  '=LCM(SEQUENCE(2000))',
  '=LCM(1E300,1E300,1E300,7)',
  '=SUM(MUNIT(SEQUENCE(2000)))',
  '=SUM(SEQUENCE(SEQUENCE(2000),SEQUENCE(2000)))',
  '=SUM(SEQUENCE(1000,1000,SEQUENCE(2000)))',
  '=SUM(MATCH(SEQUENCE(10000),SEQUENCE(10000),0))',
])('%s is refused in words', (formula) => {
  const [answer] = newCalculator().evaluate([formula]);
  expect(answer).toMatchObject({ error: expect.stringMatching(/^#(?:NUM|VALUE|REF)!$/) });
  expect(answer && 'message' in answer ? answer.message : '').toMatch(/\w+ \w+ .{10}/);
});

test('a LAMBDA that calls itself ends in an error', () => {
  const answers = newCalculator().evaluate(['=LET(f,LAMBDA(g,n,g(g,n+1)),f(f,1))', '=LAMBDA(f,f(f))(LAMBDA(f,f(f)))']);
  for (const answer of answers) expect(answer).toHaveProperty('error');
});

test('sizes, counts and numbers that stand in cells are weighed as those in the formula are', async () => {
  const { at, words } = await book({
    S: {
      ...Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`A${i + 1}`, 2000])),
      B1: 3,
      B2: 1e16,
      C1: 1e300,
      C2: 3e300,
      D1: '=SUM(SEQUENCE(A1:A40,A1:A40))',
      D2: '=SUM(MUNIT(A1:A40))',
      D3: '=SUM(POISSON.DIST(B1:B2,2,TRUE))',
      D4: '=GAMMA.INV(0.5,B2,1)',
      D5: '=LCM(B1:C2)',
    },
  });
  for (const cell of ['D1', 'D2', 'D3', 'D4', 'D5']) {
    expect(at(cell), cell).toBe('#NUM!');
    expect(words(cell), cell).toMatch(/at most|more digits/);
  }
});

test('what stays within bounds comes out, before and after a formula that does not', async () => {
  const { at } = await book({
    S: {
      A1: '=SUM(MAKEARRAY(100,100,LAMBDA(r,c,r*c)))',
      A2: '=SUM(MAKEARRAY(2000,1000,LAMBDA(r,c,r)))',
      A3: '=REDUCE(0,SEQUENCE(100),LAMBDA(a,b,a+b))',
      A4: '=SUM(MMULT(SEQUENCE(2,2),SEQUENCE(2,2)))',
      A5: '=SUM(D1:XFD1048576)',
      A6: '=ROUND(BINOM.DIST(1,2,0.5,FALSE),9)',
      A7: '=LCM(4,6,SEQUENCE(10))',
      A8: '=SUM(SEQUENCE({2,3},1))',
      A9: '=MUNIT({2,3})',
      B1: '=TEXTJOIN(",",TRUE,SEQUENCE(3))',
    },
  });
  // (1 + … + 100)² = 5050²; 1 + … + 100; [[7,10],[15,22]]; 2·0.5·0.5
  expect([at('A1'), at('A3'), at('A4'), at('A6')]).toEqual([25_502_500, 5050, 54, 0.5]);
  // 2520 = 2³·3²·5·7, the least common multiple of 1 to 10; the first cell of each array that is made
  expect([at('A7'), at('A8'), at('A9'), at('B1')]).toEqual([2520, 2, 1, '1,2,3']);
  for (const cell of ['A2', 'A5']) expect(at(cell)).toMatch(/^#/);
});
