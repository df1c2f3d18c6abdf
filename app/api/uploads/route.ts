import { answer } from "../_http/answers.ts";
import { beginUpload } from "../_http/uploads.ts";
import { writing } from "../_http/writing.ts";

/** Begins an upload: `{ "upload": id }`, to which files are then sent one by one. */
export const POST = (request: Request) =>
  writing(request, async ({ act }) => answer({ upload: await beginUpload(act.now.getTime()) }, 201));
