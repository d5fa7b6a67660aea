/** Version of the engine, printed with every result: results may differ between versions, never within one. */
export const ENGINE = "slackwater 0.1.0";
