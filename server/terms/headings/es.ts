import { forms, type LanguageWords, words } from "./language";

export const es: LanguageWords = {
  language: "es",
  headings: {
    "batch-number": words(`
      n° lote, tanda, n° tanda, n° de tanda, hornada, n° hornada, n° carga, n°, número, n° de lote, n° de carga
    `),
    day: words("fecha, día, fecha de secado, fecha secado, fecha de tostado, día de secado"),
    site: words("sitio, sede, código de sitio, lugar, planta de secado"),
    harvest: words("cosecha, fecha de cosecha, código de cosecha, bandeja, caja, código"),
    fresh: words(`
      entrada, kg entrada, fresco, larva fresca, larvas frescas, larva viva, larvas vivas, húmedo, peso húmedo,
      peso fresco, peso inicial, peso entrada, antes, peso antes, antes de secar, crudo, cargado, larva entrada
    `),
    dried: words(`
      salida, kg salida, seco, tostado, larva seca, larvas secas, larva tostada, peso seco, peso final,
      peso salida, después, peso después, después de secar, producto, producto seco
    `),
    "dried-day": words("fecha de pesada, fecha pesaje, pesado el, fecha salida"),
    loads: words("cargas, n° de cargas, número de cargas, tandas, n° de tandas, número de tandas"),
    start: words("inicio, hora inicio, hora de inicio, encendido, comienzo, hora entrada"),
    end: words("fin, hora fin, hora de fin, final, hora final, apagado, hora salida"),
    minutes: words("duración, minutos, tiempo de secado, tiempo, min, tiempo en minutos, minutos de secado"),
    method: words("método, método de secado, secador, tipo de secador"),
    "fuel-type": words("combustible, tipo de combustible, energía, gas/leña, gas o leña"),
    "fuel-amount": words(`
      combustible usado, combustible kg, kg combustible, consumo, combustible consumido, cantidad de combustible
    `),
    lpg: words(`
      GLP, gas, gas usado, gas kg, kg gas, propano, butano, balón, bombona, cilindro, garrafa, pipeta, tanque
    `),
    "natural-gas": words("gas natural, gas de red"),
    biogas: words("biogás"),
    firewood: words("leña, leña usada, leña kg, kg leña, madera, haz, tercio, tercios"),
    charcoal: words("carbón, carbón vegetal, carbón kg, briqueta, briquetas"),
    "other-biomass": words("cascarilla, cascarilla de arroz, cáscara, olote, tusa, aserrín, otra biomasa"),
    electricity: words("luz, corriente, electricidad, kWh, medidor"),
    kerosene: words("queroseno, kerosén, parafina"),
    diesel: words("diésel, gasóleo, planta, gasoil"),
    petrol: words("gasolina, nafta"),
    "cylinder-before": words(`
      peso balón inicio, peso cilindro inicio, cilindro antes, balón antes, peso bombona antes, bruto,
      bruto antes, gas inicio
    `),
    "cylinder-after": words(`
      peso balón fin, peso cilindro fin, cilindro después, balón después, peso bombona después, bruto después,
      gas fin
    `),
    "cylinder-change": words("cambio, nuevo balón, cambio de balón, cambio de cilindro, cilindro nuevo, recarga"),
    "sand-kg": words("arena, arena kg, kg arena, peso arena"),
    "sand-cycle": words("ciclo de arena, ciclo arena, uso de arena"),
    "new-sand": words("arena nueva, cambio arena, cambio de arena, arena cambiada"),
    pan: words("sartén, n° sartén, olla, paila, tambor, fogón"),
    operator: words("operador, operadora, responsable, nombre, por, firma"),
    labour: words("mano de obra, jornales, mujeres, hombres, horas de trabajo"),
    "moisture-in": words("humedad entrada, humedad inicial, humedad antes"),
    "moisture-out": words("humedad, % agua, humedad salida, humedad final, humedad después"),
    "water-activity": words("aw, actividad de agua"),
    temperature: words("temp, temperatura, temperatura de la arena"),
    "crush-test": words("prueba de aplastado, aplastado"),
    crisp: words("crujiente, inflado"),
    colour: words("calidad, color, oscuro"),
    rejects: words("pérdida, pérdidas, merma, rechazo, polvo, finos"),
    packed: words("empacado, sacos, envasado, bolsas"),
    "waste-in": words("residuos, sustrato, alimento"),
    remarks: words("observaciones, observación, notas, nota, obs, comentario, comentarios"),
  },
  unclear: {
    lote: ["batch-number", "packed"],
    carga: ["batch-number", "fresh", "loads"],
    petróleo: ["kerosene", "diesel"],
    desperdicio: ["rejects", "waste-in"],
    quemado: ["rejects", "colour"],
    horas: ["minutes", "labour"],
    hora: ["start", "minutes"],
    peso: ["fresh", "dried"],
  },
  notRead: words("vendido, precio, existencias, saldo, costo, rendimiento, clima"),
  fillers: words("el, la, los, las, de, del, en, total"),
  totals: words("total, totales, suma, subtotal, total general, total del mes"),
  averages: words("promedio, media, saldo anterior"),
  nothingProduced: words(`
    nada, cerrado, feriado, festivo, sin gas, sin larva, sin producción, no se trabajó, lluvia, descanso
  `),
  ditto: words("igual, ídem, lo mismo, mismo"),
  missing: words("n/a, nada, perdido, sin pesar, no pesado, desconocido, ninguno, falta"),
  toCome: words("mañana, pendiente, por pesar, después, al día siguiente"),
  months: [
    words("enero, ene"),
    words("febrero, feb"),
    words("marzo, mar"),
    words("abril, abr"),
    words("mayo, may"),
    words("junio, jun"),
    words("julio, jul"),
    words("agosto, ago"),
    words("septiembre, setiembre, sep, set"),
    words("octubre, oct"),
    words("noviembre, nov"),
    words("diciembre, dic"),
  ],
  weekdays: [
    words("lunes, lun"),
    words("martes, mar"),
    words("miércoles, mié"),
    words("jueves, jue"),
    words("viernes, vie"),
    words("sábado, sáb"),
    words("domingo, dom"),
  ],
  units: {
    kg: words("kg, kgs, kilo, kilos, kilogramo, kilogramos"),
    g: words("g, gr, grs, gramo, gramos"),
    lb: words("lb, lbs"),
    t: words("t, tonelada, toneladas"),
    oz: words("oz, onza, onzas"),
    min: words("min, mins, minuto, minutos"),
    h: words("h, hr, hrs, hora, horas"),
    s: words("s, seg, segundo, segundos"),
    kWh: words("kwh"),
    L: words("l, lt, lts, litro, litros"),
    m3: words("m3, m³, metro cúbico, metros cúbicos"),
  },
  containers: forms(`
    balde/baldes, saco/sacos, lata/latas, bandeja/bandejas, caja/cajas, cubeta/cubetas, haz/haces, tercio/tercios,
    quintal/quintales, arroba/arrobas, libra/libras
  `),
  cylinder: words(`
    balón, balones, bombona, bombonas, cilindro, cilindros, cambio, nuevo, nuevo balón, recarga, garrafa
  `),
  methods: {
    "sand-pan": words("arena, arena caliente, sartén, tostado en arena"),
    "hot-air-cabinet": words("aire caliente, gabinete, armario, horno"),
    microwave: words("microondas"),
    sun: words("sol, solar, secado al sol"),
    other: words("otro, otra"),
  },
  yes: words("sí, s, nueva, cambiada, hecho"),
  no: words("no, ninguno, ninguna"),
  pass: words("bueno, buena, bien, sí, crujiente, aprobado"),
  fail: words("malo, mala, blando, no, reprobado, mal"),
};
