// Imported first: what follows runs in a turn of its own, for the browser has much to do itself when a page has been read.
await new Promise((go) => setTimeout(go));

export {};
