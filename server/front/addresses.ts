import { networkInterfaces } from "node:os";

/** Addresses at which a browser finds a server that listens on `host`: the first for this machine, others for its network. */
export function addressesOf(host: string, port: number, interfaces = networkInterfaces()): string[] {
  const everywhere = host === "0.0.0.0" || host === "::";
  if (!everywhere) return [address(host === "127.0.0.1" || host === "::1" ? "localhost" : host, port)];
  const outside = Object.values(interfaces)
    .flatMap((list) => list ?? [])
    .filter((one) => !one.internal && one.family === "IPv4");
  return ["localhost", ...outside.map((one) => one.address)].map((name) => address(name, port));
}

function address(host: string, port: number): string {
  return `http://${host.includes(":") ? `[${host}]` : host}:${port}`;
}
