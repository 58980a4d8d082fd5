import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import type { Dice } from '../demo/dice.js';

/** Of the messages that hold a commit, and of all others, how many are cut while cutting is on. Our own calibration: most transactions get as far as their commit. */
const CUT_AT_COMMIT = 0.5;
const CUT_ELSEWHERE = 0.03;
/** Of the cuts, how many come before the message has been passed on. */
const BEFORE = 0.25;
/** The others come so long after it: before, while and after the server answers. */
const LONGEST_MS = 3;

/** The simple query that ends a transaction, as it stands in PostgreSQL's wire protocol (documentation of PostgreSQL 18, section "Message Formats": Query). */
const COMMIT = Buffer.from('commit\0');

/** Stands between the service and its database on loopback. While cutting is on, connections die around their commits. */
export class FaultProxy {
  cutting = false;
  cuts = 0;
  private readonly sockets = new Set<Socket>();

  private constructor(
    readonly port: number,
    private readonly server: Server,
  ) {}

  static async open(targetPort: number, dice: Dice): Promise<FaultProxy> {
    const server = createServer();
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    const address = server.address();
    if (address === null || typeof address === 'string') throw new Error('the fault proxy has no port');
    const proxy = new FaultProxy(address.port, server);
    server.on('connection', (client) => proxy.join(client, connect({ host: '127.0.0.1', port: targetPort }), dice));
    return proxy;
  }

  /** Ends every connection and listens no more. */
  async close(): Promise<void> {
    const closed = once(this.server, 'close');
    this.server.close();
    for (const socket of this.sockets) socket.destroy();
    await closed;
  }

  private join(client: Socket, database: Socket, dice: Dice): void {
    const both = [client, database];
    const destroy = () => both.forEach((socket) => socket.destroy());
    for (const socket of both) {
      this.sockets.add(socket);
      socket.setNoDelay(true);
      socket.on('error', destroy);
      socket.on('close', () => {
        this.sockets.delete(socket);
        destroy();
      });
    }
    database.pipe(client);
    client.on('data', (bytes: Buffer) => {
      if (!this.strikes(bytes, dice)) return void database.write(bytes);
      this.cuts += 1;
      if (dice.chance(BEFORE)) return destroy();
      database.write(bytes);
      setTimeout(destroy, dice.int(0, LONGEST_MS));
    });
  }

  private strikes(bytes: Buffer, dice: Dice): boolean {
    return this.cutting && dice.chance(bytes.includes(COMMIT) ? CUT_AT_COMMIT : CUT_ELSEWHERE);
  }
}
