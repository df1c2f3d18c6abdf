export const commands = [
  "assess",
  "backtest",
  "plan",
  "budget",
  "import",
  "layout",
  "export",
  "rebuild",
  "demo",
  "migrate",
] as const;
export type Command = (typeof commands)[number];

export const generalHelp = `borecast COMMAND …

Dated repair forecasts from the compression and leak-down tests of a fleet's engines.

  assess    assess test results from files, and keep nothing
  backtest  hold past forecasts against what came, from files, and keep nothing
  plan      put repairs into workshop weeks, from files, and keep nothing
  budget    forecast the money of the repairs, from files, and keep nothing
  import    take files into the database
  layout    keep how the columns of other people's files are read
  export    write the whole database as files
  rebuild   make all derived values in the database anew
  demo      load the demo fleet into a new database
  migrate   bring the database to this version

  borecast COMMAND --help   tells more, with examples
  borecast --version        tells the version

The database lies in the folder named by BORECAST_DATA, else in the project's folder data.
`;

export const helpOf: Record<Command, string> = {
  assess: `borecast assess RESULTS… --models MODELS.json [options]

Reads test results and what else is known, as text files (CSV) or .xlsx workbooks, keeps nothing, and prints one
assessment of the whole fleet. The pages of the app widen or narrow ranges by how the fleet's past ranges held, which is
kept with its database: their dates may differ from these.

  --models FILE         engine models (needed)
  --units FILE          units
  --depots FILE         depots
  --repairs FILE        repairs
  --meters FILE         meter readings
  --checks FILE         checks
  --judgements FILE     what persons made of tests: set aside, accepted
  --as-of DATE          count nothing after this date; default: the latest date in the files
  --horizon-years N     how far ahead to look; default 5
  --encoding NAME       read text files as utf-8, utf-16le, utf-16be or windows-1252; default: found out from each
  --delimiter NAME      read cells as parted by comma, semicolon, tab or bar; default: found out from each
  --sheet NAME          read this sheet of workbooks; default: the first one with known headings
  --json                print one JSON document instead of a table

Exit status: 0 done; 1 done, but some rows were refused (standard error names each); 2 nothing was done.

Examples
  borecast assess demo-data/tests-*.csv --models demo-data/engine-models.json
  borecast assess results.csv --models models.json --repairs repairs.csv --as-of 2026-06-30
  borecast assess results.csv --models models.json --json > assessment.json
`,
  backtest: `borecast backtest RESULTS… --models MODELS.json [options]

Reads files as borecast assess does, goes back to each past test, forecasts with only what was known on the day, and holds
it against the tests that came: how often the 50, 80 and 90 % ranges held, how far off the likely level and distance were,
pinball and Brier scores, beside a straight-line trend, "same as last time" and a fixed-interval rule; by engine model,
tester and how far ahead; the worst misses with a reason; and how much wider or narrower each model's ranges should be.
Keeps nothing. Under 20 outcomes it prints counts and no percentages.

  --models FILE         engine models (needed)
  --units, --depots, --repairs, --meters, --checks, --judgements FILE   as borecast assess
  --as-of DATE          count nothing after this date; default: the latest date in the files
  --horizon-years N     how far ahead forecasts look; default 5
  --encoding, --delimiter, --sheet NAME   as borecast assess
  --json                print one JSON document instead of tables

Exit status: 0 done; 1 done, but some rows were refused (standard error names each); 2 nothing was done.

Examples
  borecast backtest demo-data/tests-*.csv --models demo-data/engine-models.json
  borecast backtest results.csv --models models.json --repairs repairs.csv --json > record.json
`,
  plan: `borecast plan RESULTS… --models MODELS.json [--workshop WORKSHOP.json] [options]

Reads files as borecast assess does and puts the repairs that they foresee into the weeks of the workshops: the schedule whose
expected cost (the work, days off the road, life given away by being early, running on and failures by being late) is least
within bays, hours, closed weeks, lead times and spare engines. Prints each booking with its costs, the load of each depot,
what found no room, and what the same would cost first come, first served. Keeps nothing.

  --models FILE         engine models with the costs of their repairs (needed)
  --workshop FILE       prices, depots, costs of classes of units, spare engines, pins; what it leaves out has a default
                        (what a depot or a class leaves out: that of any); the app writes one on Prices and workshops
  --units, --depots, --repairs, --meters, --checks, --judgements FILE   as borecast assess
  --as-of DATE          plan from the first Monday on or after this date; default: the latest date in the files
  --horizon-years N     how far ahead to look; default 5
  --seconds N           stop looking for a better plan after so long; default 60
  --wait UNIT           instead: what each repair of one unit costs and risks in each week, to say whether it can wait
  --encoding, --delimiter, --sheet NAME   as borecast assess
  --json                print one JSON document instead of tables

Exit status: 0 done; 1 done, but some rows were refused, or a pin asks for more than there is (standard error tells which);
2 nothing was done.

Examples
  borecast plan demo-data/tests-*.csv --models demo-data/engine-models.json --units demo-data/units.csv \\
    --repairs demo-data/repairs.csv --meters demo-data/meters.csv --workshop demo-data/workshop.json
`,
  budget: `borecast budget RESULTS… --models MODELS.json [--workshop WORKSHOP.json] [options]

Makes the plan as borecast plan does and draws what may come of it many thousand times: when limits are met, what fails before its
booking, which class of repair it is, hours, parts and the growth of prices. Prints the money of each fiscal year and quarter:
expected, and the amounts that are not exceeded with a probability of 50, 80 and 95 %, by depot, scope and engine model; planned and
unplanned; the units that take most; units never tested as a line of their own. Keeps nothing.

  --workshop FILE       as borecast plan; its fiscalYearStartMonth, budgetMonths and spreads count here
  --seed N              number that the draws begin with: the same gives the same bytes; default 1
  --draws N             how many, from 1,000 to 200,000; default 40,000, of more than 200
                        units 10,000
  --models, --units, --depots, --repairs, --meters, --checks, --judgements FILE   as borecast assess
  --as-of DATE, --horizon-years N, --seconds N   as borecast plan
  --encoding, --delimiter, --sheet NAME   as borecast assess
  --json                print one JSON document instead of tables; amounts in minor units

Exit status: as borecast plan.

Examples
  borecast budget demo-data/tests-*.csv --models demo-data/engine-models.json --units demo-data/units.csv \\
    --repairs demo-data/repairs.csv --meters demo-data/meters.csv --workshop demo-data/workshop.json
`,
  import: `borecast import FILE… | FOLDER [options]

Takes files of any kind (test results, units, depots, repairs, meter readings, checks, judgements, engine models), text
(CSV) or .xlsx workbooks, into the database as one import, keeps them with it as they are, and assesses the units that it
touches.
What is known already is not taken twice. A folder that borecast export wrote goes into a new database whole: with
settings, depot calendars, prices and pinned repairs, notes, layouts and the photos of repairs.

  --by NAME         who imports; default: your name on this machine
  --dry-run         say what the files would bring, and take nothing
  --take-changes    also take rows that change what is known
  --layout NAME     read the files, but for engine models, by this kept layout (borecast layout)
  --encoding NAME   read text files as utf-8, utf-16le, utf-16be or windows-1252; default: found out from each
  --delimiter NAME  read cells as parted by comma, semicolon, tab or bar; default: found out from each
  --sheet NAME      read this sheet of workbooks; default: the first one with known headings

Exit status: 0 done; 1 done, but some rows were refused (standard error names each); 2 nothing was done.

Examples
  borecast import models.json units.csv results.csv --by "A. Fitter"
  borecast import results.csv --dry-run
  borecast import corrections.csv --take-changes
  borecast import results.xlsx --sheet "Tests 2026"
  borecast import round-7.csv --layout "Depot North"
  BORECAST_DATA=/srv/new borecast import /srv/out
`,
  layout: `borecast layout list
borecast layout show NAME
borecast layout save NAME FILE.json
borecast layout withdraw NAME
borecast layout suggest FILE [--header-row N] [--answer CODE=ANSWER]… [--json]

Keeps how the columns of other people's files of test results become those of the contract, by name. suggest looks at a
file, changes nothing, and tells what each column seems to be and what it could not tell; save takes what suggest --json
printed, or what show printed. Each save is a version, and the newest one holds.

  --by NAME         who saves or withdraws; default: your name on this machine
  --header-row N    suggest: the headings stand in row N of the file, or in two rows, as 2-3; blank rows do not count
  --answer CODE=ANSWER   suggest: answer an open question by its name; may be given for each
  --json            print the suggestion as one JSON document
  --encoding NAME, --delimiter NAME, --sheet NAME   read the file as borecast import does

Exit status: 0 done; 1 the suggestion leaves open what rows cannot be read without; 2 nothing was done.

Examples
  borecast layout suggest round-7.csv
  borecast layout suggest round-7.csv --answer date-order=day-first --json > north.json
  borecast layout save "Depot North" north.json
  borecast import round-7.csv --layout "Depot North"
`,
  export: `borecast export FOLDER

Writes all that the database holds, as it stands over all imports, to a folder that is new or empty: tests, units,
depots, repairs, meter readings, checks and judgements as CSV; engine models, settings, depot calendars, notes and
layouts as JSON; prices, workshops and pinned repairs as workshop.json, which borecast plan --workshop reads too; the photos
of repairs as they were given, in the folder photos, which photos.json names. The files are those that borecast import reads. Imported into a new database and rebuilt, they give the same assessments.
What was undone, who imported what, the files that were imported, and earlier assessments stay in the database alone. To
move or to keep these as well, stop the app and copy its data folder.

Exit status: 0 done; 2 nothing was written.

Examples
  borecast export out-2026-06-30
  BORECAST_DATA=/srv/borecast borecast export /srv/out
`,
  rebuild: `borecast rebuild

Makes engines, pools and every assessment in the database anew from what was measured. Imports are not touched.

Examples
  borecast rebuild
  BORECAST_DATA=/srv/borecast borecast rebuild
`,
  demo: `borecast demo

Loads the demo fleet into a database that holds nothing yet; else changes nothing.

Examples
  borecast demo
  BORECAST_DATA=/tmp/try borecast demo
`,
  migrate: `borecast migrate

Creates the database, or brings it to this version. Other commands do so by themselves.

Examples
  borecast migrate
  BORECAST_DATA=/srv/borecast borecast migrate
`,
};
