import { readdirSync } from "node:fs";
import path from "node:path";
import { beforeAll, expect, it } from "vitest";
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

it("leaves one file of a database that is open when the process ends", async () => {
  const folder = folderWith({ "models.json": models, "a.csv": csv(compression("B-1").map(kpaLine)) });
  // Nobody reads what it says, and it ends in the middle.
  const { status, errors } = await borecast(folder, ["import", "models.json", "a.csv"], (child) =>
    child.stdout.destroy(),
  );
  expect({ status, errors }).toEqual({ status: 0, errors: "" });
  expect(readdirSync(path.join(folder, "data"))).toEqual(["borecast.db"]);
});
