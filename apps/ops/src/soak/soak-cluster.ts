import { randomBytes } from 'node:crypto';
import { chmod, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureRoles } from '#persistence';
import { type EmbeddedPostgres, startEmbeddedPostgres } from '#platform';

/** A database server of this run alone, in a folder of its own, which can be stopped in the middle of everything and started again. */
export class SoakCluster {
  stops = 0;
  private constructor(
    readonly folder: string,
    private server: EmbeddedPostgres,
    readonly passwords: { app: string; relay: string; queue: string },
  ) {}

  static async start(): Promise<SoakCluster> {
    const folder = await mkdtemp(join(tmpdir(), 'wrackline-soak-'));
    try {
      // Started by root, the database runs as a user of its own, who must be able to pass through.
      await chmod(folder, 0o711);
      const server = await startEmbeddedPostgres({ dataDir: join(folder, 'postgres'), log: () => undefined });
      const random = () => randomBytes(24).toString('base64url');
      const cluster = new SoakCluster(folder, server, { app: random(), relay: random(), queue: random() });
      await ensureRoles(server.adminUrl, cluster.passwords).catch(async (error: unknown) => {
        await server.stop();
        throw error;
      });
      return cluster;
    } catch (error) {
      await rm(folder, { recursive: true, force: true });
      throw error;
    }
  }

  get adminUrl(): string {
    return this.server.adminUrl;
  }

  get port(): number {
    return this.server.port;
  }

  /** The URL of a role for a database, by another port: that of the fault proxy. */
  urlThrough(port: number, role: 'app' | 'relay' | 'queue', database: string): string {
    const url = new URL(this.server.urlFor(`wl_${role}`, this.passwords[role], database));
    url.port = String(port);
    return url.toString();
  }

  /**
   * Stops the server at once, so that it has to recover from its log, and starts it again on the same files and port. SIGQUIT to
   * the postmaster is what `pg_ctl stop -m immediate` sends (documentation of PostgreSQL 18, "Shutting Down the Server"); sent
   * by ourselves, because pg_ctl refuses to run as root.
   */
  async stopAtOnceAndStartAgain(): Promise<void> {
    const { port } = this.server;
    const dataDir = join(this.folder, 'postgres');
    process.kill(Number.parseInt(await readFile(join(dataDir, 'cluster', 'postmaster.pid'), 'utf8'), 10), 'SIGQUIT');
    this.stops += 1;
    // Its keeper would start it again by itself, but gives up after four times.
    await this.server.stop();
    this.server = await startEmbeddedPostgres({ dataDir, port, log: () => undefined });
  }

  async remove(): Promise<void> {
    try {
      await this.server.stop();
    } finally {
      await rm(this.folder, { recursive: true, force: true });
    }
  }
}
