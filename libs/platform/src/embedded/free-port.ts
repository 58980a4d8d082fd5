import { randomInt } from 'node:crypto';
import { createServer } from 'node:net';

/** Loopback address of the embedded server; it never listens on any other. */
export const LOOPBACK = '127.0.0.1';

/** Below what systems give to connections and to those who ask for any port, so that none of them takes it before it is bound. */
const [LOWEST, HIGHEST] = [20_000, 32_000];
const TRIES = 200;
/** Where this process looks next: it never answers one port twice in a row. */
let next = randomInt(LOWEST, HIGHEST);

/** Finds a loopback TCP port that nobody listens on at this moment. */
export async function freePort(): Promise<number> {
  for (let tries = 0; tries < TRIES; tries += 1) {
    const port = next;
    next = port + 1 < HIGHEST ? port + 1 : LOWEST;
    if (await isPortFree(port)) return port;
  }
  return bindOnce(0);
}

/** Tells whether nobody listens on this loopback port now; a privileged port counts as not free. */
export async function isPortFree(port: number): Promise<boolean> {
  try {
    await bindOnce(port);
    return true;
  } catch {
    return false;
  }
}

function bindOnce(port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen({ host: LOOPBACK, port, exclusive: true }, () => {
      const address = server.address();
      server.close(() => {
        if (address === null || typeof address === 'string') reject(new Error('no TCP port was bound'));
        else resolve(address.port);
      });
    });
  });
}
