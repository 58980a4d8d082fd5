/** The gateway for short messages: where it may connect to, and what an answer or a break means. */
import { once } from 'node:events';
import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, test } from '@jest/globals';
import { addressToUse, isPublicAddress } from '../../../apps/worker/src/senders/public-address.js';
import { smsGateway } from '../../../apps/worker/src/senders/sms-gateway.js';

// OWASP API Security Top 10 2023, API7; OWASP ASVS 5.0.0, 1.3.6. Ranges: IANA IPv4 and IPv6 Special-Purpose Address Registries [K].
describe('an address', () => {
  test.each(['127.0.0.1', '10.1.2.3', '172.16.0.1', '192.168.1.1', '169.254.169.254', '100.64.0.1', '0.0.0.0', '224.0.0.1', '255.255.255.255', '192.0.2.1', '198.18.0.1', '::1', '::', '::ffff:127.0.0.1', '::ffff:8.8.8.8', 'fe80::1', 'fc00::1', '64:ff9b::7f00:1', '2002:7f00:1::', '2001:db8::1', 'ff02::1', 'no address', ''])('%s is none to connect to', (address) => {
    expect(isPublicAddress(address)).toBe(false);
  });

  test.each(['8.8.8.8', '93.184.216.34', '2606:4700:4700::1111', '172.15.255.255', '172.32.0.1', '100.63.255.255'])('%s is public', (address) => {
    expect(isPublicAddress(address)).toBe(true);
  });

  test.each(['http://2130706433/', 'http://0x7f.1/', 'http://127.1/', 'http://[::ffff:7f00:1]/', 'http://0/', 'http://localhost./'])('of %s is refused however it is written', async (text) => {
    const resolve = async () => ['127.0.0.1'];
    expect(await addressToUse(new URL(text).hostname, false, resolve)).toBeNull();
  });

  test('of a name with one public and one private answer is refused; the name is asked once', async () => {
    let asked = 0;
    const resolve = async () => ((asked += 1), ['93.184.216.34', '10.0.0.1']);
    expect(await addressToUse('sms.example', false, resolve)).toBeNull();
    expect(await addressToUse('sms.example', false, async () => ((asked += 1), ['93.184.216.34']))).toBe('93.184.216.34');
    expect(asked).toBe(2);
  });
});

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

async function gatewayAt(answer: RequestListener) {
  const server = createServer(answer);
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  closing.push(() => new Promise((done) => {
    server.closeAllConnections();
    server.close(() => done());
  }));
  return new URL(`http://127.0.0.1:${(server.address() as AddressInfo).port}/send`);
}

const MESSAGE = { to: '+15550100', subject: 'x', text: 'Sus cosas están con nosotros', language: 'es' as const, id: '0198b7a0-0000-7000-8000-000000000001' };
const sendTo = (url: URL, anyAddress = true) => smsGateway({ url, token: 'secret-token', from: 'Wrackline', anyAddress }).send(MESSAGE);

describe('the gateway', () => {
  test('gets one POST with the text and a key that stays the same at every attempt', async () => {
    const got: { headers: Record<string, unknown>; body: string }[] = [];
    const url = await gatewayAt((request, response) => {
      let body = '';
      request.on('data', (chunk) => void (body += chunk));
      request.on('end', () => {
        got.push({ headers: request.headers, body });
        response.statusCode = 202;
        response.end('{}');
      });
    });
    expect(await sendTo(url)).toEqual({ outcome: 'sent' });
    expect(await sendTo(url)).toEqual({ outcome: 'sent' });
    expect(got).toHaveLength(2);
    for (const { headers, body } of got) {
      expect(headers).toMatchObject({ 'idempotency-key': `"${MESSAGE.id}"`, authorization: 'Bearer secret-token', 'content-type': 'application/json' });
      expect(JSON.parse(body)).toEqual({ to: MESSAGE.to, from: 'Wrackline', text: MESSAGE.text, idempotencyKey: MESSAGE.id });
    }
  });

  test.each([[429, 'not-sent'], [503, 'not-sent'], [400, 'refused'], [302, 'refused'], [500, 'unclear'], [502, 'unclear'], [408, 'unclear']])('%i means %s', async (status, outcome) => {
    let asked = 0;
    const url = await gatewayAt((request, response) => {
      asked += 1;
      request.resume();
      response.writeHead(status, { location: 'http://127.0.0.1:1/elsewhere' });
      response.end();
    });
    expect((await sendTo(url)).outcome).toBe(outcome);
    // No redirect is followed.
    expect(asked).toBe(1);
  });

  test('that breaks the connection after it has the message leaves it unclear; one that is not there has not got it', async () => {
    const url = await gatewayAt((request) => {
      request.resume();
      request.on('end', () => request.socket.destroy());
    });
    expect(await sendTo(url)).toEqual({ outcome: 'unclear' });
    expect(await sendTo(new URL('http://127.0.0.1:1/send'))).toEqual({ outcome: 'not-sent', why: 'unreachable' });
  });

  test('that answers without end is cut off', async () => {
    const url = await gatewayAt((request, response) => {
      request.resume();
      response.writeHead(200);
      const more = setInterval(() => response.write('x'.repeat(16_384)), 1);
      response.on('close', () => clearInterval(more));
    });
    expect(await sendTo(url)).toEqual({ outcome: 'sent' });
  });

  test('on this machine is never connected to unless the operator has said so, and never without TLS', async () => {
    let asked = 0;
    const url = await gatewayAt((_request, response) => {
      asked += 1;
      response.end();
    });
    expect(await sendTo(url, false)).toEqual({ outcome: 'not-sent', why: 'unreachable' });
    const secure = new URL(url);
    secure.protocol = 'https:';
    expect(await sendTo(secure, false)).toEqual({ outcome: 'not-sent', why: 'unreachable' });
    expect(asked).toBe(0);
  });
});
