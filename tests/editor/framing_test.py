"""`gill lsp` and messages that are none: wrong headers, broken JSON, wrong order, unknown methods, texts out of range. The
Language Server Protocol 3.17 and JSON-RPC 2.0 say which error each gets, and that the server goes on."""

import json
import pathlib
import sys
import tempfile
import unittest

from client import INITIALIZE, Client, text_place, uri_of

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
PARSE_ERROR, INVALID_REQUEST, METHOD_NOT_FOUND, INVALID_PARAMS = -32700, -32600, -32601, -32602
NOT_INITIALIZED, CANCELLED = -32002, -32800
DRINK = "drink Bench Sour\n  glass  coupe\n  60 ml  gin\n  30 ml  lemon juice\n  shake  12 s\n  strain\n  garnish none\n"


def framed(message, length=None):
    content = message if isinstance(message, bytes) else json.dumps({"jsonrpc": "2.0", **message}).encode()
    return b"Content-Length: %d\r\n\r\n" % (len(content) if length is None else length) + content


class Messages(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.client = self.enterContext(Client(PROGRAM, self.folder))

    def error(self, number):
        return self.client.wait_for(number)["error"]["code"]

    def lives(self):
        """It still answers, rightly."""
        self.client.open("untitled:alive", DRINK)
        shown = self.client.at("textDocument/hover", "untitled:alive", DRINK, "Bench")
        self.client.notify("textDocument/didClose", {"textDocument": {"uri": "untitled:alive"}})
        self.assertIn("### Bench Sour", shown["contents"]["value"])

    def test_before_initialize_nothing_else_is_answered(self):
        self.assertEqual(self.client.reply("textDocument/hover")["error"]["code"], NOT_INITIALIZED)
        self.client.notify("textDocument/didOpen", {"textDocument": {"uri": "untitled:x", "text": DRINK}})
        self.client.start()
        self.lives()

    def test_initialize_comes_once(self):
        self.client.start()
        self.assertEqual(self.client.reply("initialize", INITIALIZE)["error"]["code"], INVALID_REQUEST)
        self.lives()

    def test_after_shutdown_nothing_is_answered_and_exit_ends_it_with_0(self):
        self.client.start()
        self.assertIsNone(self.client.ask("shutdown"))
        self.assertEqual(self.client.reply("textDocument/hover")["error"]["code"], INVALID_REQUEST)
        self.client.notify("exit")
        self.assertEqual(self.client.server.wait(timeout=30), 0)

    def test_exit_without_shutdown_ends_it_with_1(self):
        self.client.start()
        self.client.notify("exit")
        self.assertEqual(self.client.server.wait(timeout=30), 1)

    def test_a_client_that_goes_away_ends_it_with_1(self):
        self.client.start()
        self.client.server.stdin.close()
        self.assertEqual(self.client.server.wait(timeout=30), 1)

    def test_an_unknown_method_is_told_and_an_unknown_notification_is_passed_over(self):
        self.client.start()
        for method in ("textDocument/whatever", "$/whatever", "", "x" * 10000):
            self.assertEqual(self.client.reply(method)["error"]["code"], METHOD_NOT_FOUND)
        self.client.notify("$/setTrace", {"value": "off"})
        self.lives()

    def test_what_is_no_json_is_a_parse_error_without_a_number(self):
        self.client.start()
        for content in (b"{", b"", b"nonsense", b"\xff\xfe", b'{"a":"\xff"}', b"[" * 100000, b'{"jsonrpc":"2.0","id":1,"method":"a"} more'):
            self.client.raw(framed(content))
            self.assertEqual(self.error(None), PARSE_ERROR, content[:40])
        self.lives()

    def test_what_is_json_and_no_message_is_an_invalid_request(self):
        self.client.start()
        for content in (b"[]", b"1", b"null", b'"x"', b"{}", b'{"id":1}', b'{"method":7}', b'{"id":{},"method":"shutdown"}', b'[{"id":1,"method":"shutdown"}]'):
            self.client.raw(framed(content))
            self.assertEqual(self.error(None), INVALID_REQUEST, content)
        self.lives()

    def test_answers_that_nobody_asked_for_are_passed_over(self):
        self.client.start()
        self.client.send({"id": 77, "result": None})
        self.client.send({"id": "x", "error": {"code": 1, "message": "no"}})
        self.lives()

    def test_parameters_of_another_shape_are_invalid(self):
        self.client.start()
        for params in ({}, {"textDocument": 5}, {"textDocument": {"uri": 5}}, {"textDocument": {}}, {"textDocument": {"uri": "file:///nowhere.gill"}}, [], 7, None):
            number = self.client.next_id
            self.client.next_id += 1
            self.client.send({"id": number, "method": "textDocument/hover", "params": params})
            self.assertEqual(self.error(number), INVALID_PARAMS, params)
        self.client.send({"method": "textDocument/didChange", "params": {"textDocument": {"uri": "untitled:never"}, "contentChanges": [{"text": "x"}]}})
        self.client.send({"method": "textDocument/didOpen", "params": {"textDocument": {"uri": 5}}})
        self.client.send({"method": "textDocument/didClose", "params": {"textDocument": {"uri": "untitled:never"}}})
        self.lives()

    def test_a_number_may_be_a_text(self):
        self.client.start()
        self.client.send({"id": "seven", "method": "workspace/symbol", "params": {"query": ""}})
        self.assertEqual(self.client.wait_for("seven")["result"], [])

    def test_headers_are_read_in_any_case_and_order(self):
        content = json.dumps({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": INITIALIZE}).encode()
        self.client.raw(b"Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length: %d\r\n\r\n" % len(content) + content)
        self.assertIn("capabilities", self.client.wait_for(1)["result"])

    def test_a_message_may_come_byte_by_byte_and_several_at_once(self):
        for byte in framed({"id": 1, "method": "initialize", "params": INITIALIZE}):
            self.client.raw(bytes([byte]))
        self.assertIn("capabilities", self.client.wait_for(1)["result"])
        self.client.raw(framed({"id": 2, "method": "a"}) + framed({"id": 3, "method": "b"}))
        self.assertEqual((self.error(2), self.error(3)), (METHOD_NOT_FOUND, METHOD_NOT_FOUND))

    def test_a_header_without_a_length_is_told_and_the_next_message_is_read(self):
        self.client.start()
        for junk in (b"Content-Length: many\r\n\r\n", b"Content-Length: -5\r\n\r\n", b"Content-Length: 99999999999999999999\r\n\r\n", b"Content-Length: 5000000000\r\n\r\n", b"nonsense\r\n\r\n", b"Content-Length:\r\n\r\n"):
            self.client.raw(junk + framed({"id": 50, "method": "x"}))
            self.assertEqual(self.error(None), PARSE_ERROR, junk)
            self.assertEqual(self.error(50), METHOD_NOT_FOUND, junk)
        self.lives()

    def test_a_length_that_is_too_large_takes_no_further_message_along(self):
        self.client.start()
        wrong = framed({"id": 60, "method": "x"})
        behind = framed({"id": 61, "method": "y"})
        self.client.raw(wrong.replace(b"Content-Length: ", b"Content-Length: 1") + behind * 3)
        while 61 not in self.client.answers:
            self.client._take()
        self.lives()

    def test_a_length_that_is_too_small_is_told_and_the_next_message_is_read(self):
        self.client.start()
        self.client.raw(framed({"id": 70, "method": "x"}, length=9) + framed({"id": 71, "method": "y"}))
        self.assertEqual(self.error(71), METHOD_NOT_FOUND)
        self.lives()

    def test_a_long_message_is_read_and_a_text_of_megabytes_is_checked(self):
        self.client.start()
        text = DRINK + "".join(f"# {n} words that say nothing at all about anything\n" for n in range(60000))
        self.client.open("untitled:long", text)
        self.client.change("untitled:long", text.replace("lemon", "lemom"), 2)
        self.assertIn("unknown-name", [one["code"] for one in self.client.findings("untitled:long", 2)])
        self.lives()

    def test_positions_out_of_range_are_the_nearest_there_is(self):
        self.client.start()
        self.client.open("untitled:x", DRINK)
        for line, character in ((99999, 0), (0, 99999), (4294967295, 4294967295), (1e300, 1e300), (-1, -5), (2, 10**15)):
            place = {"line": line, "character": character}
            for method in ("hover", "completion", "definition", "references", "signatureHelp", "documentHighlight", "prepareCallHierarchy"):
                self.client.ask(f"textDocument/{method}", {"textDocument": {"uri": "untitled:x"}, "position": place})
            around = {"start": place, "end": {"line": 0, "character": 0}}
            self.client.ask("textDocument/codeAction", {"textDocument": {"uri": "untitled:x"}, "range": around, "context": {"diagnostics": []}})
            self.client.ask("textDocument/rangeFormatting", {"textDocument": {"uri": "untitled:x"}, "range": around, "options": {}})
        change = {"range": {"start": {"line": 900, "character": 3}, "end": {"line": 5, "character": 0}}, "text": "\n# end\n"}
        self.client.notify("textDocument/didChange", {"textDocument": {"uri": "untitled:x", "version": 2}, "contentChanges": [change]})
        self.lives()

    def test_a_request_that_is_given_up_says_so_or_is_answered(self):
        self.client.start()
        self.client.open("untitled:x", DRINK)
        number = self.client.begin("textDocument/hover", {"textDocument": {"uri": "untitled:x"}, "position": text_place(DRINK, "Bench")})
        self.client.notify("$/cancelRequest", {"id": number})
        answer = self.client.wait_for(number)
        self.assertTrue("result" in answer or answer["error"]["code"] == CANCELLED)
        # Given up before it comes: it is never begun.
        self.client.raw(framed({"method": "$/cancelRequest", "params": {"id": 900}}) + framed({"id": 900, "method": "workspace/symbol", "params": {"query": "x"}}))
        self.assertEqual(self.error(900), CANCELLED)
        self.lives()

    def test_documents_that_are_no_files_and_files_that_are_not_there(self):
        self.client.start()
        for uri in ("untitled:Untitled-1", "http://example.org/a.gill", "file:///no/such/folder/x.gill", "file://other.host/x.gill", "file:///a%00b.gill", "gill:stdlib/x.gill", "", "file:///%E2%82%AC%zz.gill"):
            self.client.open(uri, DRINK.replace("lemon", "lemom"))
            self.assertIn("unknown-name", [one["code"] for one in self.client.findings(uri)], uri)
            self.client.notify("textDocument/didClose", {"textDocument": {"uri": uri}})
            self.assertEqual(self.client.findings(uri), [], uri)
        self.lives()

    def test_bytes_that_are_no_text_are_told_as_findings(self):
        self.client.start()
        self.client.open("untitled:x", "drink A\x00B\n  60 ml gin\x07\n\r\r\u2028\n")
        self.assertTrue(self.client.findings("untitled:x"))
        self.lives()

    def test_thousands_of_open_files(self):
        self.client.start()
        (self.folder / "house.gill").write_text("house Bench\n")
        for n in range(1500):
            self.client.open(uri_of(self.folder) + f"/drink{n}.gill", DRINK.replace("Bench", f"Bench {n}"))
        broken = uri_of(self.folder) + "/drink700.gill"
        self.client.change(broken, DRINK.replace("Bench", "Bench 700").replace("lemon", "lemom"), 2)
        self.assertIn("unknown-name", [one["code"] for one in self.client.findings(broken, 2)])
        self.assertEqual(self.client.end(), 0)


unittest.main(argv=sys.argv[:1], verbosity=2)
