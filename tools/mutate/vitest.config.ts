import { defineConfig } from 'vitest/config';

/** The tests of the layers whose mutants are looked for: those of the physics, units and tables, without hosts. */
export default defineConfig({
  test: {
    include: ['engine', 'units', 'tables', 'numerics', 'trade', 'library'].map(
      (folder) => `tests/${folder}/**/*.test.ts`,
    ),
    testTimeout: 180_000,
    pool: 'forks',
  },
});
