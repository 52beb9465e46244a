import { forms, type LanguageWords, words } from "./language";

export const fr: LanguageWords = {
  language: "fr",
  headings: {
    "batch-number": words(`
      n° lot, fournée, n° fournée, n° de fournée, numéro de fournée, n° charge, n° de charge, n°, numéro,
      n° de lot
    `),
    day: words("date, jour, date de séchage, jour de séchage, date séchage, date du séchage, date de torréfaction"),
    site: words("site, code site, nom du site, lieu, unité de séchage, station"),
    harvest: words("récolte, date de récolte, code récolte, bac, n° bac, caisse, code"),
    fresh: words(`
      entrée, kg entrée, entrées, frais, larves fraîches, larves vivantes, masse fraîche, humide,
      larves humides, poids frais, poids humide, poids initial, poids avant, poids avant séchage, avant,
      avant séchage, cru, poids entrée, larves entrée, masse entrée
    `),
    dried: words(`
      sortie, kg sortie, sorties, sec, larves sèches, larves séchées, séché, grillé, torréfié, larves grillées,
      poids sec, masse sèche, poids final, poids après, poids après séchage, après, après séchage, produit,
      produit sec, poids sortie, masse sortie, larves sortie
    `),
    "dried-day": words("date pesée, date de pesée, pesé le, date sortie, jour de pesée"),
    loads: words(`
      charges, nbre de charges, nombre de charges, nb charges, fournées, nombre de fournées, nbre de fournées,
      nb fournées
    `),
    start: words("début, heure début, heure de début, allumé, h début, heure entrée, heure d'allumage, démarrage"),
    end: words("fin, heure fin, heure de fin, h fin, arrêt, éteint, heure sortie, heure d'arrêt"),
    minutes: words("durée, minutes, temps de séchage, temps, durée de séchage, durée séchage, min, durée en minutes"),
    method: words("méthode, mode de séchage, méthode de séchage, séchoir, type de séchoir"),
    "fuel-type": words("combustible, type de combustible, énergie, gaz/bois, gaz ou bois, source d'énergie"),
    "fuel-amount": words(`
      combustible utilisé, quantité de combustible, combustible consommé, consommation, combustible kg,
      kg combustible, combustible brûlé
    `),
    lpg: words(`
      GPL, gaz, gaz utilisé, gaz kg, kg gaz, GPL utilisé, gaz consommé, butane, propane, bouteille, bouteilles,
      bouteille de gaz, bonbonne, bombonne, recharge
    `),
    "natural-gas": words("gaz naturel, gaz de ville"),
    biogas: words("biogaz, bio gaz"),
    firewood: words("bois, bois de chauffe, bois utilisé, bois kg, kg bois, fagot, fagots, stère, stères, bûches"),
    charcoal: words("charbon, charbon de bois, charbon utilisé, charbon kg, briquettes, briquette"),
    "other-biomass": words("balle, balle de riz, coque, coques, rafle, rafles, sciure, autre biomasse"),
    electricity: words("courant, électricité, kWh, compteur, unités"),
    kerosene: words("pétrole, pétrole lampant, kérosène"),
    diesel: words("gasoil, gazole, diesel, groupe, groupe électrogène"),
    petrol: words("essence"),
    "cylinder-before": words(`
      poids bouteille avant, bouteille avant, pesée, pesée avant, pesée début, bouteille début,
      poids bouteille début, gaz avant, bouteille matin, poids brut avant
    `),
    "cylinder-after": words(`
      poids bouteille après, bouteille après, pesée après, pesée fin, bouteille fin, poids bouteille fin,
      gaz après, bouteille soir, poids brut après
    `),
    "cylinder-change": words(`
      changement, nouvelle bouteille, changement bouteille, changement de bouteille, bouteille changée,
      recharge bouteille
    `),
    "sand-kg": words("sable, sable kg, kg sable, poids sable, poids du sable"),
    "sand-cycle": words("cycle du sable, cycle de sable, usage du sable"),
    "new-sand": words("sable neuf, sable changé, changement de sable, nouveau sable"),
    pan: words("poêle, n° poêle, n° de poêle, marmite, tambour, foyer"),
    operator: words("opérateur, opératrice, agent, nom, par, visa, séché par, responsable"),
    labour: words("main d'œuvre, nbre ouvriers, nombre d'ouvriers, heures de travail, femmes, hommes, ouvriers"),
    "moisture-in": words("humidité entrée, humidité avant, humidité initiale, humidité frais"),
    "moisture-out": words(`
      humidité, teneur en eau, H %, humidité sortie, humidité après, humidité finale, taux d'humidité
    `),
    "water-activity": words("aw, activité de l'eau, activité eau"),
    temperature: words("temp, température, température du sable, temp sable, T°"),
    "crush-test": words("écrasement, test d'écrasement, test écrasement"),
    crisp: words("croquant, croustillant, soufflé"),
    colour: words("qualité, couleur, foncé"),
    rejects: words("perte, pertes, rebut, rebuts, poussière, fines, perte au tamis"),
    packed: words("emballé, sacs, sacs emballés, kg emballés, ensaché"),
    "waste-in": words("biodéchets, substrat, aliment, déchets traités"),
    remarks: words("remarques, remarque, notes, observations, observation, obs, commentaire, commentaires"),
  },
  unclear: {
    lot: ["batch-number", "packed"],
    charge: ["batch-number", "fresh", "loads"],
    déchets: ["rejects", "waste-in"],
    heures: ["minutes", "labour"],
    heure: ["start", "minutes"],
    brûlé: ["rejects", "colour"],
    poids: ["fresh", "dried"],
  },
  notRead: words("vendu, prix, stock, solde, coût, rendement, météo"),
  fillers: words("le, la, les, l, d, de, des, du, en, au, total"),
  totals: words("total, totaux, somme, sous-total, total général, total du mois, cumul"),
  averages: words("moyenne, report, à reporter, moy"),
  nothingProduced: words(`
    néant, RAS, fermé, férié, jour férié, pas de gaz, pas de larves, repos, pas de séchage, pas de production,
    pluie, congé
  `),
  ditto: words("id, id., idem, ibid, même, dito"),
  missing: words("n/a, nd, néant, manquant, perdu, non pesé, pas pesé, inconnu, aucun"),
  toCome: words("à venir, demain, à peser, en attente, plus tard, le lendemain"),
  months: [
    words("janvier, janv, jan"),
    words("février, févr, fév"),
    words("mars"),
    words("avril, avr"),
    words("mai"),
    words("juin"),
    words("juillet, juil"),
    words("août"),
    words("septembre, sept"),
    words("octobre, oct"),
    words("novembre, nov"),
    words("décembre, déc"),
  ],
  weekdays: [
    words("lundi, lun"),
    words("mardi, mar"),
    words("mercredi, mer"),
    words("jeudi, jeu"),
    words("vendredi, ven"),
    words("samedi, sam"),
    words("dimanche, dim"),
  ],
  units: {
    kg: words("kg, kgs, kilo, kilos, kilogramme, kilogrammes"),
    g: words("g, gr, grs, gramme, grammes"),
    lb: words("lb, lbs"),
    t: words("t, tonne, tonnes"),
    oz: words("oz, once, onces"),
    min: words("min, mn, minute, minutes"),
    h: words("h, heure, heures"),
    s: words("s, sec, seconde, secondes"),
    kWh: words("kwh"),
    L: words("l, litre, litres"),
    m3: words("m3, m³, mètre cube, mètres cubes"),
  },
  containers: forms(`
    seau/seaux, bassine/bassines, sac/sacs, caisse/caisses, bac/bacs, fagot/fagots, stère/stères, quintal/quintaux,
    livre/livres, panier/paniers
  `),
  cylinder: words(`
    bouteille, bouteilles, bonbonne, bombonne, changée, changement, nouvelle, nouvelle bouteille, recharge,
    neuve
  `),
  methods: {
    "sand-pan": words("sable, sable chaud, poêle, torréfaction au sable"),
    "hot-air-cabinet": words("air chaud, armoire, armoire à air chaud, étuve, four"),
    microwave: words("micro-ondes, micro onde, microonde"),
    sun: words("soleil, solaire, séchage solaire"),
    other: words("autre"),
  },
  yes: words("oui, o, neuf, changé, fait, vrai"),
  no: words("non, aucun, pas, faux"),
  pass: words("bon, bonne, réussi, oui, croquant, conforme"),
  fail: words("mauvais, mou, échec, non, pas bon, raté"),
};
