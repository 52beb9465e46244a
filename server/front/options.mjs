/**
 * What may be said behind `npm start --`.
 *
 * @typedef {{ port: number, host: string, dev: boolean, empty: boolean }} Options
 */

/**
 * Reads the words behind `npm start --`; a string is the sentence that says what is wrong with them.
 *
 * @param {readonly string[]} words
 * @returns {Options | string}
 */
export function readOptions(words) {
  const options = { port: 3000, host: "127.0.0.1", dev: false, empty: false };
  for (let at = 0; at < words.length; at++) {
    const [name, joined] = (words[at] ?? "").split("=", 2);
    if (name === "--dev") options.dev = true;
    else if (name === "--empty") options.empty = true;
    else if (name === "--port" || name === "--host") {
      const value = joined ?? words[++at];
      if (value === undefined || value === "") return `${name} needs a value, such as ${name} ${example(name)}.`;
      if (name === "--host") options.host = value;
      else if (/^\d{1,5}$/.test(value) && Number(value) <= 65_535) options.port = Number(value);
      else return `The port must be a whole number from 1 to 65535, or 0 for any free one; "${value}" is neither.`;
    } else return `npm start does not know ${name}. It knows --port NUMBER, --host ADDRESS, --empty and --dev.`;
  }
  return options;
}

/** @param {string} name */
function example(name) {
  return name === "--port" ? "3001" : "0.0.0.0";
}
