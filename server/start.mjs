// Plain enough for any Node to read, so that an old one can be told in a sentence.
const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(
    `Evendry needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer one and run npm start again.`,
  );
  process.exit(1);
}
import("./front/begin.mjs");
