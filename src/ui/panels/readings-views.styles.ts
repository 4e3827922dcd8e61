import { css } from 'lit';

export const readingsViewsStyles = css`
  ul {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.75rem;
    max-block-size: 10rem;
    margin: 0;
    padding: 0;
    overflow-y: auto;
    list-style: none;
  }

  li,
  form {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 0.625rem;
    min-inline-size: 0;
  }

  label {
    display: flex;
    align-items: center;
    gap: 0.5rem;
  }

  li a {
    min-block-size: 1.5rem;
    align-content: center;
    overflow-wrap: anywhere;
    unicode-bidi: isolate;
  }

  li a[aria-current] {
    font-weight: 600;
  }

  #said {
    overflow-wrap: anywhere;
  }

  p {
    margin: 0;
  }
`;
