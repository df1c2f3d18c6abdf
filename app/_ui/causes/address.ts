/** How often calls were right; of one engine model, where it is named. */
export const callsAddress = (model: string | null = null): string =>
  model === null ? "/causes/calls" : `/causes/calls?model=${encodeURIComponent(model)}`;
