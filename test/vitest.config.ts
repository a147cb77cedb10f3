import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const results = process.env.GRAMWRIGHT_TEST_RESULTS;

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    exclude: ["dist/**", "node_modules/**"],
    globalSetup: ["test/agreement-table.ts"],
    setupFiles: ["test/fixed-chance.ts"],
    // files share what is imported (no module keeps anything between them) and both of a small machine's cores are used
    isolate: false,
    maxWorkers: Math.max(2, availableParallelism() - 1),
    reporters: results ? ["default", ["json", { outputFile: results }]] : ["default"],
    testTimeout: 400_000,
    hookTimeout: 180_000,
  },
});
