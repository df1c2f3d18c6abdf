import path from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
  resolve: { alias: { "@": path.resolve(import.meta.dirname) } },
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    exclude: ["tests/browser/**", "tests/bench/**", "node_modules/**"],
    env: { TZ: "UTC" },
    allowOnly: false,
    testTimeout: 60_000,
    maxWorkers: "100%",
  },
});
