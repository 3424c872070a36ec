import "@fontsource-variable/archivo/wdth.css";
import { mount } from "svelte";

import App from "./App.svelte";
import "./app.css";

const target = document.getElementById("page");
if (target) mount(App, { target });
