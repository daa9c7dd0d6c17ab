# A mail server that takes mail and writes each letter as a line of JSON. What it is like comes as JSON on the first line of
# its input; it ends when its input does.
import email, email.policy, json, ssl, sys

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import AuthResult, LoginPassword

asked = json.loads(sys.stdin.readline())


class Keep:
    async def handle_RCPT(self, server, session, envelope, address, options):
        if address in asked["unknown"]:
            return "550 5.1.1 nobody of that name here"
        envelope.rcpt_tos.append(address)
        return "250 that will do"

    async def handle_DATA(self, server, session, envelope):
        if asked["refuses"]:
            return asked["refuses"]
        letter = {
            "from": envelope.mail_from,
            "to": envelope.rcpt_tos,
            "raw": envelope.content.decode("utf-8", "replace"),
            "safe": session.ssl is not None or asked["security"] == "tls",
            "user": getattr(session, "known_as", None),
            "text": email.message_from_bytes(envelope.content, policy=email.policy.default).get_content(),
        }
        print(json.dumps(letter), flush=True)
        return "250 taken"


def sign_in(server, session, envelope, mechanism, data):
    known = isinstance(data, LoginPassword) and [data.login.decode(), data.password.decode()] == asked["sign_in"]
    if known:
        session.known_as = data.login.decode()
    return AuthResult(success=known, handled=False)


options = {}
context = None
if asked["security"] != "nothing":
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(asked["certificate"], asked["key"])
if asked["security"] == "starttls":
    options |= {"tls_context": context, "require_starttls": True}
if asked["sign_in"]:
    options |= {"authenticator": sign_in, "auth_required": True, "auth_require_tls": asked["security"] == "starttls"}
server = Controller(
    Keep(),
    hostname="127.0.0.1",
    port=asked["port"],
    ssl_context=context if asked["security"] == "tls" else None,
    **options,
)
server.start()
print(json.dumps("listening"), flush=True)
sys.stdin.read()
server.stop()
