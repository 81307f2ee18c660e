// A terminal emulator as a board under test: serial bytes on stdin and stdout, its screen to whoever connects to a socket.
// usage: node headless.js SOCKET ROWS COLUMNS
const net = require("net");
const { Terminal } = require("@xterm/headless");

const [socket, rows, columns] = process.argv.slice(2);
const terminal = new Terminal({ rows: Number(rows), cols: Number(columns), scrollback: 0, allowProposedApi: true });

process.stdin.on("data", (data) => terminal.write(data));
process.stdin.on("error", () => process.exit(0));
process.stdin.on("end", () => process.exit(0));
terminal.onData((data) => process.stdout.write(data));
terminal.onBinary((data) => process.stdout.write(Buffer.from(data, "binary")));

net.createServer((client) => {
  // An empty write is answered when all before it has been drawn.
  terminal.write("", () => {
    const buffer = terminal.buffer.active;
    const lines = [];
    for (let row = 0; row < terminal.rows; row++) {
      lines.push(buffer.getLine(buffer.viewportY + row).translateToString(true));
    }
    client.end(lines.join("\n") + "\n");
  });
}).listen(socket);
