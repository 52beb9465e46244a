import { BEFORE_FIRE, DEFER } from "../_words/cautions";
import type { SheetLanguage } from "./words";

/** The cautions before the fire, as they are printed on a sheet in its language. They say what the English ones say. */
export const CAUTIONS_IN: Readonly<Record<SheetLanguage, readonly string[]>> = {
  en: [...BEFORE_FIRE, DEFER],
  fr: [
    "Le sable reste brûlant une heure et plus : ni eau ni larves mouillées projetées dedans, gants, chaussures fermées, enfants à l’écart.",
    "Le gaz descend et s’amasse en bas : bouteille debout et dehors, fuites cherchées à l’eau savonneuse, jamais à la flamme. Odeur de gaz : fermer la vanne, aucun interrupteur, sortir, appeler.",
    "Le charbon, le bois et le gaz qui brûle mal dégagent un gaz qui tue et que personne ne sent : jamais dans une pièce fermée. Mal de tête près du feu : sortir à l’air frais.",
    "Graisse en feu : couvercle, sable ou couverture, jamais d’eau. Brûlure : 20 minutes sous l’eau fraîche courante, puis se faire soigner.",
    "Suivre d’abord les règles locales et les professionnels agréés : installateur de gaz, pompiers, autorité des aliments.",
  ],
  es: [
    "La arena sigue caliente una hora y más: ni agua ni larvas mojadas salpicadas en ella, guantes, zapatos cerrados, niños lejos.",
    "El gas baja y se junta abajo: cilindro de pie y al aire libre, fugas buscadas con agua jabonosa, nunca con llama. Si huele a gas: cierre la válvula, ningún interruptor, salga, llame.",
    "El carbón, la leña y el gas que arde mal sueltan un gas que mata y que nadie huele: nunca en un cuarto cerrado. Dolor de cabeza junto al fuego: salga al aire fresco.",
    "Grasa que arde: tapa, arena o manta, nunca agua. Quemadura: 20 minutos bajo agua fresca corriente, luego busque atención.",
    "Siga primero las normas locales y a los profesionales con licencia: instalador de gas, bomberos, autoridad de alimentos.",
  ],
  pt: [
    "A areia fica quente uma hora e mais: nem água nem larvas molhadas salpicadas nela, luvas, sapatos fechados, crianças longe.",
    "O gás desce e junta-se em baixo: botijão de pé e ao ar livre, fugas procuradas com água e sabão, nunca com chama. Cheiro a gás: feche a válvula, nenhum interruptor, saia, chame.",
    "Carvão, lenha e gás que arde mal soltam um gás que mata e que ninguém cheira: nunca em sala fechada. Dor de cabeça junto ao fogo: saia para o ar fresco.",
    "Gordura a arder: tampa, areia ou manta, nunca água. Queimadura: 20 minutos sob água fresca corrente, depois procure cuidados.",
    "Siga primeiro as regras locais e os profissionais licenciados: instalador de gás, bombeiros, autoridade de alimentos.",
  ],
  sw: [
    "Mchanga hubaki moto kwa saa moja na zaidi: usimwagie maji wala mabuu yenye maji, vaa glavu na viatu vilivyofungwa, watoto wakae mbali.",
    "Gesi hushuka na kukusanyika chini: mtungi usimame wima nje, tafuta uvujaji kwa maji ya sabuni, kamwe si kwa moto. Ukinusa gesi: funga vali, usiguse swichi, toka nje, piga simu.",
    "Mkaa, kuni na gesi isiyowaka vizuri hutoa gesi inayoua na isiyonusika: kamwe usiwashe katika chumba kilichofungwa. Kichwa kikiuma karibu na moto: toka nje kwenye hewa safi.",
    "Mafuta yakiwaka: tumia kifuniko, mchanga au blanketi, kamwe si maji. Ukiungua: dakika 20 chini ya maji baridi yanayotiririka, kisha tafuta matibabu.",
    "Fuata kwanza sheria za mahali na mafundi wenye leseni: fundi wa gesi, zimamoto, mamlaka ya chakula.",
  ],
  id: [
    "Pasir tetap panas satu jam lebih: jangan ada air atau larva basah yang memercik, pakai sarung tangan dan sepatu tertutup, jauhkan anak-anak.",
    "Gas turun dan berkumpul di bawah: tabung berdiri dan di luar ruangan, cari kebocoran dengan air sabun, jangan dengan api. Jika tercium gas: tutup katup, jangan sentuh sakelar, keluar, hubungi bantuan.",
    "Arang, kayu dan gas yang terbakar buruk mengeluarkan gas mematikan yang tidak berbau: jangan di ruang tertutup. Sakit kepala di dekat api: keluar ke udara segar.",
    "Lemak terbakar: tutup, pasir atau selimut, jangan air. Luka bakar: 20 menit di bawah air sejuk mengalir, lalu cari pertolongan.",
    "Ikuti dahulu aturan setempat dan tenaga berizin: pemasang gas, pemadam kebakaran, otoritas pangan.",
  ],
};
