import { en } from "./en";
import { es } from "./es";
import { fr } from "./fr";
import { id } from "./id";
import type { LanguageWords } from "./language";
import { pt } from "./pt";
import { sw } from "./sw";

/** Every language whose logs can be read. A word that two of them use differently goes to the one the log is written in. */
export const LANGUAGES: readonly LanguageWords[] = [en, fr, es, pt, sw, id];
