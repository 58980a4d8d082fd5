import { Readable } from 'node:stream';
import MailComposer from 'nodemailer/lib/mail-composer';
import SMTPConnection from 'nodemailer/lib/smtp-connection';
import type { MessageSender, OutgoingMessage, SendOutcome } from '#application';

export interface SmtpServer {
  host: string;
  port: number;
  /** TLS from the first byte; otherwise it is begun with STARTTLS where the server offers it. */
  secure: boolean;
  /** Refuse to send without TLS. */
  requireTls: boolean;
  user: string | null;
  password: string | null;
  /** Address that messages come from. */
  from: string;
  /** Right side of every Message-ID. */
  idHost: string;
  timeoutMs?: number;
}

/** Longest silence of the mail server; our own calibration. */
const TIMEOUT_MS = 30_000;

/**
 * Sends mail over one connection a message. What decides is whether the server had all of it: the text is handed over only when the server has asked
 * for it (354), and a message is the server's from the moment its end was sent (RFC 5321, section 4.1.1.4), so a break after that leaves it unclear.
 */
export function smtpSender(server: SmtpServer): MessageSender {
  return {
    async send(message) {
      try {
        return await deliver(server, message);
      } catch {
        return { outcome: 'not-sent', why: 'unreachable' };
      }
    },
  };
}

async function deliver(server: SmtpServer, message: OutgoingMessage): Promise<SendOutcome> {
  const text = await compose(server, message);
  const timeoutMs = server.timeoutMs ?? TIMEOUT_MS;
  const connection = new SMTPConnection({
    host: server.host, port: server.port, secure: server.secure, requireTLS: server.requireTls, connectionTimeout: timeoutMs, greetingTimeout: timeoutMs, socketTimeout: timeoutMs, dnsTimeout: timeoutMs,
  });
  return new Promise((resolve) => {
    let handedOver = false;
    let over = false;
    const finish = (outcome: SendOutcome): void => {
      if (over) return;
      over = true;
      clearTimeout(timer);
      connection.close();
      resolve(outcome);
    };
    const broke = (error: unknown): void => finish(outcomeOf(error, handedOver));
    // Beside its own timeouts: a server that drips is not waited for without end.
    const timer = setTimeout(() => broke(null), 4 * timeoutMs);
    // Read only when the server has said 354.
    const asked = Readable.from((function* body() {
      handedOver = true;
      yield text;
    })());
    const send = (): void => connection.send({ from: server.from, to: [message.to] }, asked, (error) => (error === null || error === undefined ? finish({ outcome: 'sent' }) : broke(error)));
    connection.on('error', broke);
    connection.on('end', () => broke(null));
    connection.connect((error?: Error | null) => {
      if (error) return broke(error);
      if (server.user === null) return send();
      connection.login({ credentials: { user: server.user, pass: server.password ?? '' } }, (error) => (error ? broke(error) : send()));
    });
  });
}

function compose(server: SmtpServer, { to, subject, text, language, id }: OutgoingMessage): Promise<Buffer> {
  return new MailComposer({
    from: server.from, to, subject, text, messageId: `<${id}@${server.idHost}>`,
    headers: { 'Content-Language': language, 'Auto-Submitted': 'auto-generated', 'X-Auto-Response-Suppress': 'All' }, disableFileAccess: true, disableUrlAccess: true,
  }).compile().build();
}

/** A reply of the server is certain; without one it depends on whether it had the message. */
function outcomeOf(error: unknown, handedOver: boolean): SendOutcome {
  const { responseCode, command } = (error ?? {}) as { responseCode?: number; command?: string };
  // For good only where it is about this address or this text; that the server does not know us is for an operator to mend meanwhile.
  if (responseCode !== undefined && responseCode >= 500 && (handedOver || command === 'RCPT TO')) return command === 'RCPT TO' ? { outcome: 'refused', recipient: true } : { outcome: 'refused' };
  if (responseCode !== undefined && responseCode >= 400) return { outcome: 'not-sent', why: 'refused-for-now' };
  return handedOver ? { outcome: 'unclear' } : { outcome: 'not-sent', why: 'unreachable' };
}
