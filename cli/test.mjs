// Everything that must hold, in one run. It runs before anything is installed: Node's own modules only.
import { requireNode } from "./setup/node-version.mjs";

requireNode("20.19");

const { ensurePackages } = await import("./setup/packages.mjs");
const { main, Refusal, Stopped } = await import("./setup/refusal.mjs");
const { none, sum } = await import("./testing/counts.mjs");
const { parts, steps } = await import("./testing/steps.mjs");
const { summary } = await import("./testing/summary.mjs");

const list = (all) => all.map(({ name, title }) => `  ${name.padEnd(10)} ${title}`).join("\n");
const help = `npm test [-- step ...]

Installs what is missing, the browser too, and runs every step; a failing one does not keep the later ones
from running. The summary comes last. Exit status 1 when anything failed.

Steps, in order:
${list(steps)}
Parts of "tests":
${list(parts)}

Example: npm test -- lint types unit`;

const say = (line) => console.log(line);

/** Which steps were asked for: all without a name. */
function chosen(names) {
  const known = new Map([...steps, ...parts].map((step) => [step.name, step]));
  const unknown = names.find((name) => !known.has(name));
  if (unknown !== undefined) throw new Refusal(`There is no step "${unknown}". See npm test -- --help`);
  return names.length === 0 ? steps : names.map((name) => known.get(name));
}

/** Runs a step to its lines of the summary; what keeps it from running is its failure. */
async function lines(step) {
  const started = performance.now();
  say(`\n=== ${step.title}`);
  try {
    const done = await step.run(say);
    return done.length === 1 ? [{ ...done[0], seconds: (performance.now() - started) / 1_000 }] : done;
  } catch (error) {
    if (error instanceof Stopped) throw error;
    console.error(error instanceof Refusal ? error.message : error);
    return [{ name: step.title, counts: { ...none(), failed: 1 } }];
  }
}

await main(async () => {
  const names = process.argv.slice(2);
  if (names.includes("--help")) return say(help);
  const toRun = chosen(names);
  await ensurePackages(say);
  const all = [];
  for (const step of toRun) all.push(...(await lines(step)));
  say(`\n=== summary\n${summary(all)}`);
  return sum(all.map(({ counts }) => counts)).failed > 0 ? 1 : 0;
});
