"""A client of `gill lsp` that speaks the protocol byte by byte: what it sends is what stands in the test."""

import json
import pathlib
import queue
import shutil
import subprocess
import threading

PATIENCE = 60
INITIALIZE = {"processId": None, "rootUri": None, "capabilities": {}}


def uri_of(path):
    return pathlib.Path(path).resolve().as_uri()


def text_place(text, words, utf8=False):
    """The position of the first letter of the words in a text, as the protocol counts it."""
    at = text.index(words)
    line, start = text.count("\n", 0, at), text.rfind("\n", 0, at) + 1
    before = text[start:at]
    return {"line": line, "character": len(before.encode()) if utf8 else len(before.encode("utf-16-le")) // 2}


def position_offset(text, position):
    """The index in the text of a position that counts in UTF-16."""
    lines = text.split("\n")
    line = lines[position["line"]] if position["line"] < len(lines) else ""
    units = line.encode("utf-16-le")[: 2 * position["character"]].decode("utf-16-le", "ignore")
    return sum(len(one) + 1 for one in lines[: position["line"]]) + len(units)


def with_edits(text, edits):
    """The text with edits of the protocol in it."""
    for edit in sorted(edits, key=lambda one: (one["range"]["start"]["line"], one["range"]["start"]["character"]), reverse=True):
        begin, end = (position_offset(text, edit["range"][side]) for side in ("start", "end"))
        text = text[:begin] + edit["newText"] + text[end:]
    return text


class Client:
    """One run of the server. Answers are waited for; notifications are kept in the order in which they came."""

    def __init__(self, program, folder=None, environment=None):
        self.server = subprocess.Popen([program, "lsp"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=folder, env=environment)
        self.incoming = queue.Queue()
        self.notifications, self.asked, self.answers = [], [], {}
        self.next_id = 1
        threading.Thread(target=self._read, daemon=True).start()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.server.kill()
        self.server.wait()
        for stream in (self.server.stdin, self.server.stdout, self.server.stderr):
            stream.close()

    def _read(self):
        stream = self.server.stdout
        try:
            while header := stream.readline():
                length = int(header.split(b":")[1])
                stream.readline()
                self.incoming.put(json.loads(stream.read(length)))
        except (ValueError, IndexError, OSError) as error:
            self.incoming.put({"broken": repr(error)})
        self.incoming.put(None)

    # ---- what goes out

    def raw(self, content):
        self.server.stdin.write(content)
        self.server.stdin.flush()

    def send(self, message):
        content = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.raw(b"Content-Length: %d\r\n\r\n" % len(content) + content)

    def notify(self, method, params=None):
        self.send({"method": method, "params": params or {}})

    def begin(self, method, params=None):
        """Sends a request without waiting; gives its number."""
        number = self.next_id
        self.next_id += 1
        self.send({"id": number, "method": method, "params": params or {}})
        return number

    def reply(self, method, params=None):
        """The whole answer to a request."""
        return self.wait_for(self.begin(method, params))

    def ask(self, method, params=None):
        """The result of a request, which must not fail."""
        answer = self.reply(method, params)
        if "error" in answer:
            raise AssertionError(f"{method}: {answer['error']}")
        return answer["result"]

    # ---- what comes in

    def _take(self):
        message = self.incoming.get(timeout=PATIENCE)
        if message is None or "broken" in message:
            raise EOFError(f"the server is gone: {message}")
        if "method" in message:
            (self.asked if "id" in message else self.notifications).append(message)
        else:
            self.answers[message["id"]] = message
        return message

    def wait_for(self, number):
        while number not in self.answers:
            self._take()
        return self.answers.pop(number)

    def wait_until(self, holds):
        """Takes messages until the notifications hold what is waited for; gives it."""
        while not (found := next((one for one in self.notifications if holds(one)), None)):
            self._take()
        return found

    def findings(self, uri, version=None):
        """What is told next of a file; with a version, of that state of it."""

        def is_it(one):
            params = one["params"]
            return one["method"] == "textDocument/publishDiagnostics" and params["uri"] == uri and version in (None, params.get("version"))

        found = self.wait_until(is_it)
        self.notifications.remove(found)
        return found["params"]["diagnostics"]

    # ---- what every editor does

    def start(self, **capabilities):
        result = self.ask("initialize", {**INITIALIZE, "capabilities": capabilities})
        self.notify("initialized")
        return result

    def open(self, uri, text, version=1):
        self.notify("textDocument/didOpen", {"textDocument": {"uri": uri, "languageId": "gill", "version": version, "text": text}})

    def change(self, uri, text, version):
        self.notify("textDocument/didChange", {"textDocument": {"uri": uri, "version": version}, "contentChanges": [{"text": text}]})

    def type(self, uri, text, words, typed, version):
        """Puts other words over the first that stand so, as editors tell it: the stretch and what stands there now. Gives the text."""
        begin = text_place(text, words)
        end = {"line": begin["line"], "character": begin["character"] + len(words.encode("utf-16-le")) // 2}
        self.notify(
            "textDocument/didChange",
            {"textDocument": {"uri": uri, "version": version}, "contentChanges": [{"range": {"start": begin, "end": end}, "text": typed}]},
        )
        return text.replace(words, typed, 1)

    def at(self, method, uri, text, words, more=None, within=0, utf8=False):
        """Asks something of the place where words stand in a text, so many letters further on."""
        position = text_place(text, words, utf8)
        position["character"] += within
        return self.ask(method, {"textDocument": {"uri": uri}, "position": position, **(more or {})})

    def end(self):
        """Shuts the server down; its exit status."""
        self.ask("shutdown")
        self.notify("exit")
        return self.server.wait(timeout=PATIENCE)


class DemoHouse:
    """A copy of the demo house in a folder of its own."""

    def __init__(self, source, folder):
        self.folder = pathlib.Path(folder) / "house"
        shutil.copytree(pathlib.Path(source) / "specs", self.folder)

    def path(self, name):
        return self.folder / name

    def uri(self, name):
        return uri_of(self.folder / name)

    def text(self, name):
        return self.path(name).read_text()
