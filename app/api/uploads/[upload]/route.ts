import { z } from "zod";
import { mostBytes } from "../../../_ui/import/limits.ts";
import { answer, queryFields, refusal } from "../../_http/answers.ts";
import { addFile, endUpload, uploadStatus, uploadWords } from "../../_http/uploads.ts";
import { writing } from "../../_http/writing.ts";

interface Context {
  readonly params: Promise<{ readonly upload: string }>;
}

const fields = z.object({ name: z.string().trim().min(1, "Give the file's name as ?name=") });

/** Adds one file, its bytes being the body of the request and its name the field `name` of the address. */
export const POST = (request: Request, { params }: Context) =>
  writing(request, async ({ act }) => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const announced = Number(request.headers.get("content-length") ?? 0);
    const failed =
      announced > mostBytes
        ? "too-large"
        : await addFile((await params).upload, { name: asked.value.name, body: request.body, now: act.now.getTime() });
    return failed === null
      ? answer({ name: asked.value.name }, 201)
      : refusal(uploadStatus[failed], uploadWords[failed]);
  });

/** Gives the upload up: its files are deleted. */
export const DELETE = (request: Request, { params }: Context) =>
  writing(request, async () =>
    (await endUpload((await params).upload))
      ? answer({ deleted: true })
      : refusal(uploadStatus["unknown-upload"], uploadWords["unknown-upload"]),
  );
