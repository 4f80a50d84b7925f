// Tables as CSV (RFC 4180: CR LF ends each line). What a spreadsheet would reckon as a formula gets an apostrophe (OWASP, CSV injection).

function cell(value) {
  const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[,"\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows of values as one text. */
export const table = (rows) => rows.map((row) => `${row.map((value) => cell(String(value ?? ""))).join(",")}\r\n`).join("");
