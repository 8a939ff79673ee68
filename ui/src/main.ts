import { mount } from "svelte";
import "./page.css";
import Page from "./Page.svelte";

const place = document.getElementById("page");
if (place) mount(Page, { target: place });
