import { availableParallelism } from "node:os";
import path from "node:path";
import { defineConfig } from "vitest/config";

const include = ["tests/**/*.test.ts", "tests/**/*.test.tsx"];
const exclude = ["tests/browser/**", "tests/bench/**", "node_modules/**"];
/** Files that change what others of the same process would see: modules, globals, the environment. */
const apart = [
  "tests/app/test-sheet/send-sheet.test.ts",
  "tests/app/test-sheet/device-store.test.ts",
  "tests/app/api/demo.test.ts",
  "tests/app/api/uploads.test.ts",
  "tests/app/jobs/job-registry.test.ts",
  "tests/app/jobs/track-record-upkeep.test.ts",
  "tests/db/app-store.test.ts",
];

export default defineConfig({
  resolve: { alias: { "@": path.resolve(import.meta.dirname) } },
  test: {
    env: { TZ: "UTC" },
    allowOnly: false,
    testTimeout: 60_000,
    // One more than there are cores: some files wait for programs and servers more than they work.
    maxWorkers: availableParallelism() + 1,
    projects: [
      // Loading the program anew for each file would take as long as all its tests.
      { extends: true, test: { name: "together", include, exclude: [...exclude, ...apart], isolate: false } },
      { extends: true, test: { name: "apart", include: apart } },
    ],
  },
});
