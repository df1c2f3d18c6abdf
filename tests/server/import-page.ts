/** What the Import page asks of the server to take a file in, over HTTP, and how far that is as the page can know it. */

/** `look`: at what was read, before it is taken in. `assess`: from the first news that comes after the commit. */
export const steps = ["upload", "stage", "look", "commit", "assess"] as const;
export type Step = (typeof steps)[number];

/** The answers that came before the connection broke, if it did. */
export interface Told {
  /** The import that waits; null: its end was not told. */
  staged: string | null;
  /** Whether the commit was told to have ended, assessments included. */
  isDone: boolean;
  /** What broke it off. */
  brokenBy: unknown;
}

interface JobNews {
  readonly state: string;
  readonly progress: { readonly phase: string } | null;
  readonly result: unknown;
  readonly error: string | null;
}

async function* jobNews(origin: string, job: string): AsyncGenerator<JobNews> {
  const response = await fetch(`${origin}/api/jobs/${job}/events`);
  const decoder = new TextDecoder();
  let waiting = "";
  for await (const bytes of response.body ?? []) {
    waiting += decoder.decode(bytes as Uint8Array, { stream: true });
    const events = waiting.split("\n\n");
    waiting = events.pop() ?? "";
    for (const event of events) yield JSON.parse(event.replace(/^data: /, "")) as JobNews;
  }
}

/** Follows a job to its end and gives its result. Throws where it failed, or where its end was never told. */
async function resultOf<T>(origin: string, job: string, onNews: (news: JobNews) => void = () => {}): Promise<T> {
  for await (const news of jobNews(origin, job)) {
    onNews(news);
    if (news.state === "done") return news.result as T;
    if (news.state !== "running") throw new Error(`the job ${news.state}: ${news.error}`);
  }
  throw new Error("the server ended before the job did");
}

/** Asks for something as the person who imports; gives the JSON of the answer. Throws where it was refused. */
async function call<T>(origin: string, method: string, address: string, body?: string | object): Promise<T> {
  const sent =
    typeof body === "object"
      ? { body: JSON.stringify(body), headers: { "content-type": "application/json" } }
      : body === undefined
        ? {}
        : { body };
  const separator = address.includes("?") ? "&" : "?";
  const response = await fetch(`${origin}${address}${separator}by=A.+Fitter`, { method, ...sent });
  if (!response.ok) throw new Error(`${method} ${address} answers ${response.status}: ${await response.text()}`);
  return (await response.json()) as T;
}

/**
 * Uploads a file, has it read, looks at what was read, and takes it in. `onStep` is told of each step as it begins. Never throws: a server that
 * ends meanwhile is what this is for.
 */
export async function importFile(
  origin: string,
  file: { readonly name: string; readonly text: string },
  onStep: (step: Step) => void,
): Promise<Told> {
  const told: Told = { staged: null, isDone: false, brokenBy: null };
  try {
    onStep("upload");
    const { upload } = await call<{ upload: string }>(origin, "POST", "/api/uploads");
    await call(origin, "POST", `/api/uploads/${upload}?name=${file.name}`, file.text);
    onStep("stage");
    const { job } = await call<{ job: string }>(origin, "POST", "/api/imports", { upload });
    told.staged = (await resultOf<{ import: string }>(origin, job)).import;
    onStep("look");
    await (await fetch(`${origin}/import/${told.staged}`)).text();
    onStep("commit");
    let step: Step = "commit";
    const commit = await call<{ job: string }>(origin, "POST", `/api/imports/${told.staged}/commit`, {
      takeChanges: true,
    });
    await resultOf(origin, commit.job, ({ progress }) => {
      if (step === "assess" || progress === null || progress.phase === "committing") return;
      step = "assess";
      onStep(step);
    });
    told.isDone = true;
  } catch (error) {
    told.brokenBy = error;
  }
  return told;
}
