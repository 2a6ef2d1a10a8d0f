import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    exclude: ['test/e2e/**', 'test/bench/**'],
    globalSetup: ['test/support/build-service.ts'],
    testTimeout: 120_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
