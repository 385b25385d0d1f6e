// The page: each view is a file of its own, and asks nothing but /api/v1 and the page's own files.
import "./views.js";
import "./access.js";
import "./session.js";
import "./book.js";
import "./now.js";
import "./alarms.js";
import "./check.js";
import "./baselines.js";
import "./trend.js";
import "./waveform.js";
import "./captures.js";
import "./station.js";
