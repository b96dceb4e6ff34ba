// A file that is bundled as its own text.
declare module "*.txt" {
  const text: string;
  export default text;
}
