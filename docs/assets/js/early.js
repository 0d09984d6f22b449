// Python takes longest to start: where the device holds the site, it starts before the page is read.
import {wakeEngine} from "./engine.js";

wakeEngine();
