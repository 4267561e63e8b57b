import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // The real-editor tests start their own programs; `npm test` runs them as a step of its own.
    exclude: ["**/node_modules/**", "tests/vscode/**", "dist/**"],
    environment: "node",
    // The rooms are pure, so their tests need no fresh world per file: sharing one saves most of the run's time.
    pool: "threads",
    isolate: false,
    testTimeout: 60_000,
    coverage: {
      include: ["grammar/**/*.ts", "server/**/*.ts"],
      reportsDirectory: "coverage",
    },
  },
});
