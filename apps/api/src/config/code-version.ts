/** Part of every report and entity tag: figures may change when this does. Raised with each release. */
export const CODE_VERSION = '0.1.0';
