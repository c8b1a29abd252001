// What a sample has to be: blocks that Slack knows (not the open Block type, which
// takes anything), modals made of them, and an app manifest without fields of our
// own invention.
import type { KnownBlock, ModalView } from "@slack/types";
import type { AppsManifestValidateArguments } from "@slack/web-api";

export interface Message {
  kind: string;
  text: string;
  blocks: KnownBlock[];
}

export type Modal = Omit<ModalView, "blocks"> & { blocks: KnownBlock[] };

type Parsed<T> = Exclude<T, string>;
type Open = Parsed<AppsManifestValidateArguments["manifest"]>;
// The type of a manifest takes any key beside the known ones; these are the known.
export type Manifest = { [K in keyof Open as string extends K ? never : K]: Open[K] };
type Oauth = NonNullable<Manifest["oauth_config"]>;
type Events = NonNullable<NonNullable<Manifest["settings"]>["event_subscriptions"]>;

export type Scope = NonNullable<NonNullable<Oauth["scopes"]>["bot"]>[number];
export type EventName = NonNullable<Events["bot_events"]>[number];

export interface Sample {
  messages: Message[];
  views: Modal[];
  scopes: Scope[];
  events: EventName[];
}
