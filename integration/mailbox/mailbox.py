# A mail server for tests, on Debian's python3-aiosmtpd. It tells its port, then each letter that it has taken, as
# lines of JSON. What it does with a letter goes by the first word of its address:
#   later     451 at first, for each address so often as its number says (later2@…), then taken
#   never     550
#   dies      the connection is cut in the middle of the letter
#   silent    the letter is taken, and the connection cut before that is said
#   tardy     the letter is taken, and that is said a little later
#   slow      no answer for a minute
import asyncio, email, email.policy, json, re, ssl, sys
from aiosmtpd.smtp import SMTP

asked = {}


def first(envelope):
    return envelope.rcpt_tos[0].split("@")[0] if envelope.rcpt_tos else ""


class Handler:
    async def handle_RCPT(self, server, session, envelope, address, options):
        name = address.split("@")[0]
        if name.startswith("never"):
            return "550 5.1.1 <%s>: Recipient address rejected: nobody here" % address
        if name.startswith("later"):
            asked[address] = asked.get(address, 0) + 1
            if asked[address] <= int(re.sub(r"\D", "", name) or "1"):
                return "451 4.7.1 <%s>: Try again later" % address
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server, session, envelope):
        m = email.message_from_bytes(envelope.content, policy=email.policy.default)
        told = {"to": envelope.rcpt_tos[0], "id": m["Message-ID"], "subject": m["Subject"], "date": m["Date"], "auto": m["Auto-Submitted"], "from": m["From"],
                "headerTo": m["To"], "text": m.get_content().replace("\r\n", "\n"), "encrypted": session.ssl is not None, "login": str(session.auth_data.login, "utf-8") if session.auth_data else ""}
        if first(envelope).startswith("slow"):
            await asyncio.sleep(60)
        print(json.dumps(told), flush=True)
        if first(envelope).startswith("silent"):
            server.transport.abort()
            return "250 never said"
        if first(envelope).startswith("tardy"):
            await asyncio.sleep(0.05)
        return "250 OK"


class Server(SMTP):
    async def smtp_DATA(self, arg):
        if first(self.envelope).startswith("dies"):
            await self.push("354 Go on")
            self.transport.abort()
            return
        await super().smtp_DATA(arg)


def right(server, session, envelope, mechanism, data):
    from aiosmtpd.smtp import AuthResult
    good = data.login == b"wellshown" and data.password == b"well:shown@1"
    return AuthResult(success=good, auth_data=data)


async def main():
    context, options = None, {}
    if len(sys.argv) > 2:
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(sys.argv[1], sys.argv[2])
        options = {"tls_context": context, "require_starttls": True, "auth_required": True, "authenticator": right}
    loop = asyncio.get_running_loop()
    server = await loop.create_server(lambda: Server(Handler(), hostname="mailbox", loop=loop, **options), "127.0.0.1", 0)
    print(json.dumps({"port": server.sockets[0].getsockname()[1]}), flush=True)
    await server.serve_forever()


asyncio.run(main())
