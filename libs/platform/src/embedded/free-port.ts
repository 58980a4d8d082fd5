import { createServer } from 'node:net';

/** Loopback address of the embedded server; it never listens on any other. */
export const LOOPBACK = '127.0.0.1';

/** Finds a loopback TCP port that nobody listens on at this moment, by letting the system choose. */
export async function freePort(): Promise<number> {
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
