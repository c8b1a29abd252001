// What must not pass, so that passing means something: each line below a
// ts-expect-error has to be an error, or the check fails.
import type { EventName, Manifest, Message, Modal, Scope } from "./shapes.js";

// @ts-expect-error no such block
export const unknownBlock: Message = { kind: "x", text: "x", blocks: [{ type: "paragraph" }] };
// @ts-expect-error a field that the block does not have
export const unknownField: Message = { kind: "x", text: "x", blocks: [{ type: "divider", color: "red" }] };
// @ts-expect-error a header takes plain text alone
export const wrongText: Message = { kind: "x", text: "x", blocks: [{ type: "header", text: { type: "mrkdwn", text: "x" } }] };
// @ts-expect-error a picture needs words for those who do not see it
export const noAlt: Message = { kind: "x", text: "x", blocks: [{ type: "image", image_url: "https://example.invalid/a.png" }] };
// @ts-expect-error a button is no input
export const wrongInput: Message = { kind: "x", text: "x", blocks: [{ type: "input", label: { type: "plain_text", text: "x" }, element: { type: "button", text: { type: "plain_text", text: "x" } } }] };
// @ts-expect-error every message has a text
export const noText: Message = { kind: "x", blocks: [] };
// @ts-expect-error a modal has a title
export const noTitle: Modal = { type: "modal", blocks: [] };
// @ts-expect-error no such scope
export const wrongScope: Scope = "chat:shout";
// @ts-expect-error no such event
export const wrongEvent: EventName = "message.channel";
// @ts-expect-error no such part of a manifest
export const wrongManifest: Manifest = { display_information: { name: "x" }, feature: {} };
// @ts-expect-error no such scope in a manifest
export const wrongManifestScope: Manifest = { display_information: { name: "x" }, oauth_config: { scopes: { bot: ["chat:shout"] } } };
