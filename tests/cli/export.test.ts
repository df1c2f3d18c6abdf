import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { newFolder } from "@/cli/new-folder.ts";
import { databaseFile } from "@/cli/project.ts";
import { addPhoto } from "@/db/photos.ts";
import { openStore } from "@/db/store.ts";
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

const lines = compression("B-1").map(kpaLine);
const checks = 'unit,check_date,check,result,remarks\nB-1,2024-12-01,borescope,clear,"=1+1, seen"\n';
const files = { "models.json": models, "a.csv": csv(lines), "checks.csv": checks };
const takeFiles = ["import", "models.json", "a.csv", "checks.csv"];

describe("borecast export", () => {
  it("writes what the database holds to a new folder, which a new database takes whole", async () => {
    const folder = folderWith(files);
    await borecast(folder, takeFiles);
    const written = await borecast(folder, ["export", "out/june"]);
    expect(written).toMatchObject({ status: 0, errors: "" });
    expect(written.output).toMatch(/\ntests\.csv +24\n/);
    expect(written.output).toMatch(/\nchecks\.csv +1\n/);
    expect(written.output).toMatch(/\nWritten to out\/june\.\n$/);
    const out = path.join(folder, "out", "june");
    expect(readdirSync(out).sort()).toEqual(["checks.csv", "engine-models.json", "settings.json", "tests.csv"]);
    expect(readFileSync(path.join(out, "checks.csv"), "utf8")).toContain('"\'=1+1, seen"');

    const other = folderWith();
    const taken = await borecast(other, ["import", out]);
    expect(taken).toMatchObject({ status: 0, errors: "" });
    expect(taken.output).toMatch(/\nTaken\. 1 unit was assessed\.\n$/);
    await borecast(other, ["export", "again"]);
    for (const name of readdirSync(out)) {
      expect(readFileSync(path.join(other, "again", name), "utf8")).toBe(readFileSync(path.join(out, name), "utf8"));
    }
    const twice = await borecast(other, ["import", out]);
    expect(twice).toMatchObject({ status: 2, output: "" });
    expect(twice.errors).toContain("The database holds facts already: a whole folder goes into a new one alone.");
  });

  it("carries the photos of repairs, and takes none where one is another file than was written", async () => {
    const repairs = "unit,repair_date,meter,scope\nB-1,2024-10-01,4600,top-end\n";
    const folder = folderWith({ ...files, "repairs.csv": repairs });
    await borecast(folder, [...takeFiles, "repairs.csv"]);
    const png = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 255]);
    const repair = { unit: "B-1", date: "2024-10-01", scope: "top-end", cylinders: "all" } as const;
    const told = { by: "R. Ames", at: "2024-10-02T08:00:00.000Z" };
    const store = await openStore(databaseFile({ BORECAST_DATA: path.join(folder, "data") }));
    await addPhoto(store, repair, { name: "../seat.png", type: "image/png", bytes: png }, told);
    await store.close();
    const written = await borecast(folder, ["export", "out"]);
    expect(written).toMatchObject({ status: 0, errors: "" });
    expect(written.output).toMatch(/\nphotos\.json +1\n/);
    const out = path.join(folder, "out");
    const [name = ""] = readdirSync(path.join(out, "photos"));
    expect(readFileSync(path.join(out, "photos", name)).equals(png)).toBe(true);

    const other = folderWith();
    expect(await borecast(other, ["import", out])).toMatchObject({ status: 0, errors: "" });
    await borecast(other, ["export", "again"]);
    for (const file of ["photos.json", path.join("photos", name)]) {
      expect(readFileSync(path.join(other, "again", file)).equals(readFileSync(path.join(out, file)))).toBe(true);
    }

    writeFileSync(path.join(out, "photos", name), "<svg/>");
    const third = folderWith();
    expect(await borecast(third, ["import", out])).toEqual({
      status: 2,
      output: "",
      errors: `photos.json names photos/${name}, which is no JPEG, PNG or WebP image. Nothing was taken.\n`,
    });
    expect((await borecast(third, ["export", "none"])).errors).toContain("The database holds no facts");
  });

  it("writes nothing to a folder that holds anything, to a file, or from a database without facts", async () => {
    const folder = folderWith(files);
    const empty = await borecast(folder, ["export", "none"]);
    expect(empty).toEqual({
      status: 2,
      output: "",
      errors: "The database holds no facts: there is nothing to write.\n",
    });
    expect(existsSync(path.join(folder, "none"))).toBe(false);
    await borecast(folder, takeFiles);
    mkdirSync(path.join(folder, "full"));
    writeFileSync(path.join(folder, "full", "mine.txt"), "mine");
    const full = await borecast(folder, ["export", "full"]);
    expect(full).toMatchObject({ status: 2, output: "" });
    expect(full.errors).toMatch(/^full is not empty: nothing was written\./);
    expect(readdirSync(path.join(folder, "full"))).toEqual(["mine.txt"]);
    const file = await borecast(folder, ["export", "a.csv"]);
    expect(file).toEqual({
      status: 2,
      output: "",
      errors: "a.csv could not be written: it is a file, or lies below one.\n",
    });
    expect((await borecast(folder, ["export"])).errors).toMatch(/^No folder was given\./);
    expect((await borecast(folder, ["export", "x", "y"])).errors).toMatch(/^One folder is written, but "y"/);
  });

  it("leaves nothing of what it takes back, and all of what was there", async () => {
    const folder = folderWith();
    const made = await newFolder(path.join(folder, "out"));
    await made.append("a.csv", "a");
    await made.put("photos/b.png", Buffer.from([1]));
    await made.put("photos/c.png", Buffer.from([2]));
    await made.takeBack();
    expect(readdirSync(folder)).toEqual([]);
    const kept = await newFolder(folder);
    await kept.append("a.csv", "a");
    await kept.append("a.csv", "b");
    await kept.put("photos/b.png", Buffer.from([0, 255]));
    await kept.finish();
    expect([...readFileSync(path.join(folder, "photos", "b.png"))]).toEqual([0, 255]);
    expect(readFileSync(path.join(folder, "a.csv"), "utf8")).toBe("ab");
  });
});

describe("borecast import of a folder", () => {
  it("takes nothing where it holds no file of an export, or a file that is none", async () => {
    const folder = folderWith({ "out.txt": "" });
    mkdirSync(path.join(folder, "none"));
    const none = await borecast(folder, ["import", "none"]);
    expect(none).toEqual({ status: 2, output: "", errors: "none holds nothing: nothing was taken.\n" });
    writeFileSync(path.join(folder, "none", "settings.json"), "{}");
    const wrong = await borecast(folder, ["import", "none"]);
    expect(wrong).toMatchObject({ status: 2, output: "" });
    expect(wrong.errors).toMatch(/^settings\.json is not what an export writes: schemaVersion: /);
  });
});
