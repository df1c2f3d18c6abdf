/** What the keys begin with under which the browser keeps test sheets. Alone, for every page asks whether there are any. */
export const draftPrefix = "borecast-test-sheet:";
