import { compression, csv, kpaLine, models } from "./command.ts";

/** An import for tests that end it at any moment: into a small fleet, with corrections and with units that are new. */

const known = ["B-1", "B-2", "B-3"].flatMap((unit) => compression(unit));
const corrected = known.map((row) => (row.unit === "B-2" && row.cylinder === 3 ? { ...row, kpa: row.kpa - 40 } : row));
const added = Array.from({ length: 15 }, (_, i) => compression(`C-${i}`, { fall: 20 + i })).flat();

export const fleetFiles = { "models.json": models, "known.csv": csv(known.map(kpaLine)) };
export const more = { name: "more.csv", text: csv([...corrected, ...added].map(kpaLine)) };
