import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const results = process.env.GRAMWRIGHT_TEST_RESULTS;

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    exclude: ["dist/**", "node_modules/**"],
    globalSetup: ["test/agreement-table.ts"],
    reporters: results ? ["default", ["json", { outputFile: results }]] : ["default"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
