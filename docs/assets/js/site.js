// What every page loads. The build makes one file of it and of what it imports.
import "./turn.js";
import "./menu.js";
import "./below.js";
import "./search.js";
import "./reading.js";
import "./look-up.js";
import "./offline.js";
import "./form.js";
import "./job-add.js";
import "./job-sheet.js";
