import { forms, type LanguageWords, words } from "./language";

export const en: LanguageWords = {
  language: "en",
  headings: {
    "batch-number": words(`
      batch, batch no, batch number, batch id, load no, load number, run, run no, roast, roast no, #, no, number
    `),
    day: words(`
      date, day, roast date, roasting date, roasting day, drying date, date of drying, drying day, date dried
    `),
    site: words("site, site code, site name, station, location, place"),
    harvest: words("harvest, harvested, harvest date, harvest code, crate, crate no, bin, code"),
    fresh: words(`
      in, kg in, input, wet, wet weight, wet larvae, fresh, fresh weight, fresh larvae, fresh in, fresh mass,
      raw, raw larvae, raw weight, live, live larvae, live weight, larvae in, larvae, mass in, weight in,
      weight before, weight before drying, before drying, before, start weight, initial weight, loaded,
      BSFL fresh, fresh BSFL, BSFL in
    `),
    dried: words(`
      out, kg out, output, dry, dry weight, dry larvae, dry out, dried, dried weight, dried larvae, dried out,
      dried mass, roasted, roasted larvae, finished, after, after drying, weight after, weight after drying,
      final weight, end weight, product, larvae out, mass out, weight out, BSFL dried, BSFL dry
    `),
    "dried-day": words(`
      dried weighed on, date weighed, weighing date, weighed on, date out, dried date weighed, day weighed
    `),
    loads: words(`
      loads, no of loads, number of loads, loads per day, batches, no of batches, number of batches, roasts,
      runs
    `),
    start: words("start, started, start time, on, began, lit, time in, time on, time start, from"),
    end: words(`
      end, end time, ended, stop, stop time, off, finish, finished at, finish time, time out, time off,
      time end, to
    `),
    minutes: words(`
      minutes, mins, min, duration, drying time, drying minutes, roast time, roasting time, roasting minutes,
      time taken, minutes dried
    `),
    method: words("method, drying method, dryer, dryer type"),
    "fuel-type": words("fuel, fuel type, type of fuel, kind of fuel, gas/wood, gas or wood, source, energy source"),
    "fuel-amount": words(`
      fuel used, fuel amount, amount of fuel, fuel kg, kg fuel, fuel weight, fuel quantity, fuel consumed,
      fuel consumption, fuel burned
    `),
    lpg: words(`
      LPG, gas, LPG used, gas used, gas kg, kg gas, LPG kg, propane, butane, cylinder, cylinders, gas cylinder,
      bottle, gas bottle, tank
    `),
    "natural-gas": words("natural gas, piped gas, town gas"),
    biogas: words("biogas, bio gas, digester gas"),
    firewood: words("wood, firewood, wood used, firewood used, wood kg, firewood kg, sticks, bundle, bundles, logs"),
    charcoal: words("charcoal, charcoal used, charcoal kg, coal, briquette, briquettes"),
    "other-biomass": words(`
      husk, husks, rice husk, shell, shells, coconut shell, cobs, maize cobs, sawdust, other biomass
    `),
    electricity: words("power, kWh, electricity, electricity used, electric, units, power units, meter, tokens"),
    kerosene: words("kerosene, paraffin"),
    diesel: words("diesel, genset, generator"),
    petrol: words("petrol, gasoline"),
    "cylinder-before": words(`
      cyl before, cylinder before, weight start cylinder, cylinder start, cylinder weight start,
      cylinder weight before, kg gas start, gas start, gas before, gross, gross before, cylinder gross,
      cylinder morning
    `),
    "cylinder-after": words(`
      cyl after, cylinder after, cylinder end, cylinder weight end, cylinder weight after, kg gas end, gas end,
      gas after, gross after, cylinder evening
    `),
    "cylinder-change": words(`
      changed, cylinder changed, cylinder change, new bottle, new cylinder, swap, cylinder swap, refill,
      gas changed
    `),
    "sand-kg": words("sand, sand kg, kg sand, sand weight, sand used"),
    "sand-cycle": words("sand cycle, sand use, sand used times, cycle of sand, loads on sand"),
    "new-sand": words("sand new, new sand, sand changed, sand change, fresh sand"),
    pan: words("pan, pan no, pan number, wok, drum, stove, stove no"),
    operator: words("by, operator, staff, name, initials, dried by, done by, signature, sign"),
    labour: words("labour, labor, staff no, number of staff, man-hours, labour hours, women, men, workers"),
    "moisture-in": words("moisture in, moisture before, fresh moisture, MC in, moisture fresh"),
    "moisture-out": words(`
      moisture, MC, humidity, % water, moisture out, moisture after, dried moisture, MC out, final moisture,
      moisture %, moisture reading
    `),
    "water-activity": words("aw, water activity"),
    temperature: words("temp, temperature, °C, sand temp, sand temperature, pan temperature"),
    "crush-test": words("crush, crush test, snap, snap test, crush result"),
    crisp: words("crisp, crispy, puffed, puffed and crisp, crispness"),
    colour: words("colour, color, quality, dark"),
    rejects: words("loss, losses, rejects, rejected, fines, spilled, spill, burnt, dust, sieve loss"),
    packed: words("packed, bags, kg packed, bags packed"),
    "waste-in": words("feed, biowaste, kg substrate, substrate, waste in, waste fed"),
    remarks: words("remarks, remark, notes, note, comment, comments, obs, observations"),
  },
  unclear: {
    lot: ["batch-number", "packed"],
    "lot no": ["batch-number", "packed"],
    load: ["batch-number", "fresh", "loads"],
    waste: ["rejects", "waste-in"],
    hours: ["minutes", "labour"],
    time: ["minutes", "start"],
    weight: ["fresh", "dried"],
  },
  notRead: words("sold, price, stock, balance, cost, amount paid, weather, yield, yield %, ratio"),
  fillers: words("the, a, an, of, per, total, for"),
  totals: words("total, totals, sum, grand total, subtotal, sub total, month total, monthly total, page total"),
  averages: words("average, mean, balance b/f, balance, brought forward, avg"),
  nothingProduced: words(`
    none, nil, no work, closed, holiday, public holiday, rain, no gas, no larvae, no production, not working,
    day off, sunday off, no drying
  `),
  ditto: words("do, do., same, ditto, ibid, idem"),
  missing: words("n/a, na, nil, none, missing, lost, not weighed, not recorded, not known, unknown"),
  toCome: words("to come, tomorrow, later, pending, next day, next morning, not yet, to be weighed, tbc"),
  months: [
    words("january, jan"),
    words("february, feb"),
    words("march, mar"),
    words("april, apr"),
    words("may"),
    words("june, jun"),
    words("july, jul"),
    words("august, aug"),
    words("september, sep, sept"),
    words("october, oct"),
    words("november, nov"),
    words("december, dec"),
  ],
  weekdays: [
    words("monday, mon"),
    words("tuesday, tue, tues"),
    words("wednesday, wed"),
    words("thursday, thu, thur, thurs"),
    words("friday, fri"),
    words("saturday, sat"),
    words("sunday, sun"),
  ],
  units: {
    kg: words("kg, kgs, kilo, kilos, kilogram, kilograms, kilogrammes, k"),
    g: words("g, gr, grs, gms, gm, grm, gram, grams, grammes"),
    lb: words("lb, lbs, pound, pounds"),
    t: words("t, ton, tons, tonne, tonnes, mt"),
    oz: words("oz, ounce, ounces"),
    min: words("min, mins, mn, minute, minutes"),
    h: words("h, hr, hrs, hour, hours"),
    s: words("s, sec, secs, second, seconds"),
    kWh: words("kwh, kw h, units, unit, u"),
    L: words("l, ltr, lt, ltrs, liter, liters, litre, litres"),
    m3: words("m3, m³, cbm"),
  },
  containers: forms(`
    bucket/buckets, basin/basins, sack/sacks, bag/bags, tin/tins, crate/crates, debe/debes, gorogoro, bundle/bundles,
    pan/pans, load/loads, tray/trays, cup/cups
  `),
  cylinder: words(`
    cylinder, cylinders, bottle, bottles, changed, new, new bottle, new cylinder, swap, refill, full, change,
    changed cylinder, changed bottle
  `),
  methods: {
    "sand-pan": words("sand, sand pan, hot sand, pan, sand roasting, roasting, roasted in sand"),
    "hot-air-cabinet": words("hot air, hot-air cabinet, cabinet, hot air cabinet, oven, tray dryer, cabinet dryer"),
    microwave: words("microwave, micro wave"),
    sun: words("sun, sun drying, sun dried, solar, solar dryer"),
    other: words("other"),
  },
  yes: words("yes, y, x, 1, true, new, changed, ok, done"),
  no: words("no, n, 0, false, none, not"),
  pass: words("pass, passed, ok, good, yes, y, crisp, crispy, fine"),
  fail: words("fail, failed, bad, soft, no, n, poor, not crisp, not ok"),
};
