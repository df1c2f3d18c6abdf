import { defineConfig } from "drizzle-kit";

export default defineConfig({
  dialect: "sqlite",
  casing: "snake_case",
  schema: "./db/schema.sqlite.ts",
  out: "./db/migrations",
});
