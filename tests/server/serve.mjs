// The last step of `npm start` alone: a test that starts the server dozens of times need not look for packages and builds.
import path from "node:path";
import { serve } from "../../cli/setup/serve.mjs";

const [folder = "", port = ""] = process.argv.slice(2);
process.exitCode = await serve({
  host: "127.0.0.1",
  port: Number(port),
  folder: path.resolve(folder),
  mode: "start",
  say: (line) => console.log(line),
});
