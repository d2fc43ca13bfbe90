import { defineConfig } from 'vitest/config';

// Two cores everywhere we run, so no more than two workers; the reporters give a plain closing
// line for people and a file that .ci/run counts.
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/seed.ts'],
    maxWorkers: 2,
    // Files share what is loaded: loading it anew for each took as long as all tests together.
    isolate: false,
    testTimeout: 60_000,
  },
});
