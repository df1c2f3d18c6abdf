/** The fields of a request's address as Next gives them to a page: what is told more than once as a list. */
export function addressParts(request: Request): Readonly<Record<string, readonly string[]>> {
  const fields = new URL(request.url).searchParams;
  return Object.fromEntries([...fields.keys()].map((name) => [name, fields.getAll(name)]));
}
