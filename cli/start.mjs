// One command from a fresh clone to a served page. It runs before anything is installed: Node's own modules only.
import { requireNode } from "./setup/node-version.mjs";

requireNode("20.9");

const { ensureCommand, ensurePages } = await import("./setup/build.mjs");
const { dataFolder, loadDemoWhenDue, migrate, requireWritable } = await import("./setup/data.mjs");
const { ensurePackages } = await import("./setup/packages.mjs");
const { help, readStartOptions } = await import("./setup/start-options.mjs");
const { main } = await import("./setup/refusal.mjs");
const { requireFree } = await import("./setup/address.mjs");
const { serve } = await import("./setup/serve.mjs");

const say = (line) => console.log(line);

await main(async () => {
  const { host, port, empty, dev, ...choice } = readStartOptions(process.argv.slice(2), process.env);
  if (choice.help) return say(help);
  if (choice.buildOnly) {
    await ensurePackages(say);
    await ensureCommand();
    return ensurePages(say);
  }
  const folder = dataFolder(process.env);
  // What can be refused is refused before the minutes of installing and building.
  requireWritable(folder);
  await requireFree({ host, port });
  await ensurePackages(say);
  await ensureCommand();
  await migrate(folder, { empty });
  if (!dev) await ensurePages(say);
  await loadDemoWhenDue(folder, say);
  return serve({ host, port, folder, mode: dev ? "dev" : "start", say });
});
