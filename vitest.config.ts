import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    testTimeout: 60_000,
    hookTimeout: 180_000,
    pool: 'forks',
    // what the page does by itself takes longer than a second where the machine is busy
    expect: { poll: { timeout: 10_000 } },
  },
});
