export { orificeFlowLPerH, siphonFlowLPerH, weirFlowLPerH, weirHeadM } from "./flows.ts";
