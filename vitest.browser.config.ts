import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['packages/*/test/**/*.browser.test.ts'],
    globalSetup: ['packages/web/test/browser/build.ts'],
    // One Chromium at a time: two on two cores make each other miss their time limits.
    maxWorkers: 1,
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
