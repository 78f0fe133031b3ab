import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where and how to speak to a kernel: the connection file of the Jupyter messaging protocol. */
export interface Connection {
  readonly transport: 'ipc' | 'tcp';
  readonly ip: string;
  readonly shell_port: number;
  readonly iopub_port: number;
  readonly stdin_port: number;
  readonly control_port: number;
  readonly hb_port: number;
  readonly key: string;
  readonly signature_scheme: 'hmac-sha256';
}

/** A connection that nobody else can use, in a folder of its own. */
export interface PrivateConnection {
  readonly connection: Connection;
  /** Folder that only this user may enter; holds the connection file and the sockets. */
  readonly folder: string;
  readonly file: string;
}

/** Name of the sockets within their folder. */
const SOCKET = 'k';
/** Longest path of a Unix socket, from sys/un.h of Linux, less what is added to a name here. */
const LONGEST_PATH = 107 - `/${SOCKET}-5`.length;

/** How the folders of running kernels begin. */
export const TEMPORARY_PREFIX = 'halfmax-kernel-';

/**
 * A fresh connection: Unix sockets in a folder that only this user may enter, or loopback where there are none.
 *
 * @returns the connection, its folder and file (readable by this user alone)
 */
export async function privateConnection(): Promise<PrivateConnection> {
  const folder = mkdtempSync(join(tmpdir(), TEMPORARY_PREFIX));
  try {
    const hasSockets = process.platform !== 'win32' && folder.length <= LONGEST_PATH;
    const ports = hasSockets ? [1, 2, 3, 4, 5] : await freePorts(5);
    const [shell_port, iopub_port, stdin_port, control_port, hb_port] = ports as [
      number,
      number,
      number,
      number,
      number,
    ];
    const connection: Connection = {
      transport: hasSockets ? 'ipc' : 'tcp',
      ip: hasSockets ? join(folder, SOCKET) : '127.0.0.1',
      shell_port,
      iopub_port,
      stdin_port,
      control_port,
      hb_port,
      key: randomBytes(32).toString('hex'),
      signature_scheme: 'hmac-sha256',
    };
    const file = join(folder, 'connection.json');
    writeFileSync(file, JSON.stringify(connection), { mode: 0o600 });
    return { connection, folder, file };
  } catch (fault) {
    rmSync(folder, { recursive: true, force: true });
    throw fault;
  }
}

/**
 * The address of a socket, as zeromq takes it.
 *
 * @param connection - the connection
 * @param port - of the socket
 * @returns such as `ipc:///tmp/x/k-1`
 */
export function addressOf({ transport, ip }: Connection, port: number): string {
  return transport === 'ipc' ? `ipc://${ip}-${port}` : `tcp://${ip}:${port}`;
}

async function freePorts(count: number): Promise<number[]> {
  const servers = await Promise.all(
    Array.from(
      { length: count },
      () =>
        new Promise<ReturnType<typeof createServer>>((resolve, reject) => {
          const server = createServer();
          server.once('error', reject);
          server.listen(0, '127.0.0.1', () => resolve(server));
        }),
    ),
  );
  const ports = servers.map((server) => (server.address() as { port: number }).port);
  await Promise.all(servers.map((server) => new Promise((resolve) => server.close(resolve))));
  return ports;
}
